import { describe, expect, it } from 'vitest';
import { virtualTime, type VirtualTime } from '../../../firmware-host/virtual-time.ts';
import { createUsb, type Usb } from '../../../sim/board/firmata/usb.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';
import { BOOT_MILLIS, bytesOf, hexOf, onDesk, type Desk } from './desk.ts';

interface Opened {
  readonly heard: () => string;
  /** `opened`, or why it was lost. */
  readonly said: readonly string[];
  readonly write: (hex: string) => void;
  readonly close: () => Promise<void>;
}

interface Bench {
  readonly usb: Usb;
  readonly desk: Desk;
  readonly time: VirtualTime;
  readonly to: (millis: number) => void;
  readonly open: (name?: string) => Opened;
}

const bench = (): Bench => {
  const time = virtualTime(0);
  const usb = createUsb(time.timers);
  const desk = onDesk();
  usb.plug('usb', desk.peer, '123');
  return {
    usb,
    desk,
    time,
    to: (millis) => {
      time.advance(monotonicMillis(millis));
    },
    open: (name = 'usb') => {
      const bytes: number[] = [];
      const said: string[] = [];
      const port = usb.open(name, {
        opened: () => said.push('opened'),
        heard: (more) => bytes.push(...more),
        lost: (why) => said.push(why),
      });
      return {
        heard: () => hexOf(bytes.splice(0)),
        said,
        write: (hex) => {
          port.write(bytesOf(hex));
        },
        close: port.close,
      };
    },
  };
};
/** A firmware report of version 3.4 named "Ab", after the version of the protocol, 2.8. */
const HELLO = 'F9 02 08 F0 79 03 04 41 00 62 00 F7';

describe('a port with a software board', () => {
  it('is listed by name and serial number while it is plugged in', async () => {
    const { usb } = bench();
    expect(await usb.candidates()).toMatchObject([{ name: 'usb', serialNumber: '123' }]);
    usb.unplug('usb');
    expect(await usb.candidates()).toEqual([]);
  });

  it('opens a millisecond later, never during the call, and the board that it resets talks after its start', () => {
    const { open, to } = bench();
    const port = open();
    expect(port.said).toEqual([]);
    to(1);
    expect(port.said).toEqual(['opened']);
    to(BOOT_MILLIS);
    expect(port.heard()).toBe('');
    to(BOOT_MILLIS + 2);
    expect(port.heard()).toBe(HELLO);
  });

  it('carries a question to the board and its answer back', () => {
    const { open, to } = bench();
    const port = open();
    to(BOOT_MILLIS + 2);
    port.heard();
    port.write('F9');
    to(BOOT_MILLIS + 3);
    expect(port.heard()).toBe('F9 02 08');
  });

  it('belongs to one program: a second one is told so, and hears nothing', () => {
    const { open, to } = bench();
    const first = open();
    const second = open();
    to(BOOT_MILLIS + 2);
    expect(second.said).toEqual(['another program has this port']);
    second.write('F9');
    expect([first.heard(), second.heard()]).toEqual([HELLO, '']);
  });

  it('of another name is no port', () => {
    const { open, to } = bench();
    const port = open('other');
    to(1);
    expect(port.said).toEqual(['no such port']);
  });

  it('may be opened again after it was closed, and the board starts anew', async () => {
    const { open, to } = bench();
    const first = open();
    to(BOOT_MILLIS + 2);
    await first.close();
    const second = open();
    to(2 * BOOT_MILLIS + 10);
    expect(second.said).toEqual(['opened']);
    expect(second.heard()).toBe(HELLO);
  });
});

describe('a cable that is pulled', () => {
  it('is told 2 ms later, once, and nothing comes after it', () => {
    const { usb, open, to } = bench();
    const port = open();
    to(BOOT_MILLIS + 2);
    port.heard();
    usb.unplug('usb');
    to(BOOT_MILLIS + 3);
    expect(port.said).toEqual(['opened']);
    to(BOOT_MILLIS + 4);
    expect(port.said).toEqual(['opened', 'unplugged']);
    to(BOOT_MILLIS + 5000);
    expect([port.heard(), port.said.length]).toEqual(['', 2]);
  });

  it('loses what is written before its news, and counts what is written after it: no board hears either', () => {
    const { usb, desk, open, to } = bench();
    const port = open();
    to(BOOT_MILLIS + 2);
    // Pin 7 is an output from its start; this would drive it high.
    usb.unplug('usb');
    port.write('F5 07 01');
    expect(usb.staleBytes()).toBe(0);
    to(BOOT_MILLIS + 5);
    port.write('F5 07 01');
    expect(usb.staleBytes()).toBe(3);
    usb.plug('usb', desk.peer);
    port.write('F5 07 01');
    expect(usb.staleBytes()).toBe(6);
    expect(desk.levelOf(7)).toBe(0);
  });
});

describe('a port that stalls', () => {
  it('stays open and carries nothing, neither way', () => {
    const { usb, desk, open, to } = bench();
    const port = open();
    to(BOOT_MILLIS + 2);
    port.heard();
    usb.stall('usb');
    port.write('F9 F5 07 01');
    to(BOOT_MILLIS + 10_000);
    expect([port.said, port.heard(), usb.staleBytes()]).toEqual([['opened'], '', 0]);
    expect(desk.peer.tally().parser.heardBytes).toBe(0);
  });
});

describe('a look at the world', () => {
  it('carries a changed input at once, and bytes that no board has sent when they are made up', () => {
    const { usb, desk, open, to } = bench();
    const port = open();
    to(BOOT_MILLIS + 2);
    // Pin 2 an input with pull-up, port 0 reported.
    port.write('F4 02 0B D0 01');
    to(BOOT_MILLIS + 3);
    port.heard();
    desk.digital.set(2, 0);
    usb.look();
    expect(port.heard()).toBe('90 00 00');
    usb.disturb('usb', bytesOf('90 04 00'));
    expect(port.heard()).toBe('90 04 00');
  });
});
