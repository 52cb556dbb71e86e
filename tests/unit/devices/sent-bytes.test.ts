import { describe, expect, it } from 'vitest';
import { createBoardLink, type BoardLink } from '../../../firmware-host/devices/board-link.ts';
import type { LineSource } from '../../../firmware-host/devices/line.ts';
import { virtualTime } from '../../../firmware-host/virtual-time.ts';
import { createUsb } from '../../../sim/board/firmata/usb.ts';
import type { Wiring } from '../../../src/farm/farm.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';
import { seconds } from '../../../src/units/quantity.ts';
import { hexOf, onDesk, type Desk } from '../board/desk.ts';

/**
 * What the host sends, against the tables of the Firmata protocol (github firmata/protocol, `protocol.md`, 2.8.0):
 * F4 sets a pin mode (1 output, 2 analog, 3 PWM, 0B pull-up), 9x writes a port of eight pins, Cx and Dx ask for reports of
 * a channel and of a port, F9 asks for the version, sysex 79 for the firmware, 7A sets the sampling interval.
 */

const WIRING: Wiring = {
  relay: { pin: 7, energised: 'high' },
  returnFlow: { pin: 2, pulsesPerLitre: 1.5 },
  tankFloat: { pin: 9, reads: 'low' },
  airThermistor: { pin: 'A1', ohmsAt25: 10_000, betaKelvin: 3950, fixedOhms: 10_000, wired: 'to-ground' },
  buzzer: 4,
  lamp: 6,
};

/** Messages of a host by the protocol's table: three bytes, but F9 alone, F4 and F5 with two, and sysex to its end. */
const cut = (bytes: readonly number[]): readonly string[] => {
  const messages: string[] = [];
  for (let at = 0; at < bytes.length;) {
    const first = bytes[at]!;
    const kind = first < 0xf0 ? first & 0xf0 : first;
    const lengths: Readonly<Record<number, number>> = {
      0x90: 3,
      0xc0: 2,
      0xd0: 2,
      0xe0: 3,
      0xf4: 3,
      0xf5: 3,
      0xf9: 1,
    };
    const end = kind === 0xf0 ? bytes.indexOf(0xf7, at) + 1 : at + (lengths[kind] ?? NaN);
    const message = bytes.slice(at, end);
    if (!(end > at) || message.length !== end - at) throw new Error(`no message at ${at}: ${hexOf(bytes)}`);
    messages.push(hexOf(message));
    at = end;
  }
  return messages;
};

interface Sent {
  readonly board: BoardLink;
  readonly desk: Desk;
  /** Lets time pass and gives the messages that were sent meanwhile. */
  readonly during: (millis: number, does?: () => void) => Promise<readonly string[]>;
}

const connected = (wiring: Wiring = WIRING): Sent => {
  const time = virtualTime(0);
  const { timers } = time;
  const usb = createUsb(timers);
  const desk = onDesk();
  usb.plug('usb', desk.peer);
  const bytes: number[] = [];
  const lines: LineSource = {
    candidates: usb.candidates,
    open: (name, events) => {
      const line = usb.open(name, events);
      return {
        close: line.close,
        write: (more) => {
          bytes.push(...more);
          line.write(more);
        },
      };
    },
  };
  const board = createBoardLink({
    wiring,
    deadBoard: 'pump-stops',
    use: 'drive',
    lines,
    port: 'usb',
    timers,
  });
  const during = async (millis: number, does?: () => void): Promise<readonly string[]> => {
    bytes.length = 0;
    does?.();
    // The device library finishes some of its work outside of its timers.
    for (let step = 0; step < millis; step += 100) {
      await new Promise(setImmediate);
      time.advance(monotonicMillis(timers.now() + 100));
    }
    return cut(bytes);
  };
  return { board, desk, during };
};

describe('the first words of a host', () => {
  it('ask for version and firmware, then for capabilities and the map of channels, and nothing else', async () => {
    const { during } = connected();
    const first = await during(1000);
    expect(first.slice(0, 2)).toEqual(['F9', 'F0 79 F7']);
    expect(new Set(first)).toEqual(new Set(['F9', 'F0 79 F7']));
    const rest = await during(1500);
    expect(rest.indexOf('F0 6B F7')).toBeGreaterThanOrEqual(0);
    expect(rest.indexOf('F0 69 F7')).toBeGreaterThan(rest.indexOf('F0 6B F7'));
  });

  it('set pins by the wiring, and the interval to 333 ms: 2 · 128 + 77', async () => {
    const { during, board } = connected();
    const sent = await during(4000);
    expect(board.link()).toEqual({ kind: 'up' });
    for (const message of [
      'F4 07 01', // relay: output
      'F4 04 01', // buzzer: output
      'F4 06 03', // lamp: PWM, which pin 6 has
      'F4 02 0B', // meter: pull-up
      'F4 09 0B', // float: pull-up
      'C1 01', // reports of channel 1
      'D0 01', // reports of port 0, pins 0 to 7
      'D1 01', // reports of port 1, pins 8 to 15
      'F0 7A 4D 02 F7',
    ]) {
      expect(sent).toContain(message);
    }
  });

  it('set no mode of a pin that the wiring does not name; a converter pin is one from the start of the firmware', async () => {
    const { during } = connected();
    const pins = (await during(4000)).flatMap((message) => /^F4 (..)/.exec(message)?.[1] ?? []);
    expect(new Set(pins)).toEqual(new Set(['07', '06', '04', '02', '09']));
  });
});

describe('the relay', () => {
  /** Level of pin 7 in each write of port 0: the top bit, which travels in the second data byte. */
  const levels = (messages: readonly string[]): readonly string[] =>
    messages.flatMap((message) => /^90 .. 0(.)$/.exec(message)?.[1] ?? []);

  it('is told with its mode before its level', async () => {
    const { board, desk, during } = connected();
    const start = await during(4000);
    expect(new Set(levels(start))).toEqual(new Set(['0']));
    const on = await during(100, () => {
      board.command({ kind: 'pump-on', longest: seconds(1200) });
    });
    expect(on[0]).toBe('F4 07 01');
    expect(on[1]).toMatch(/^90 .. 01$/);
    expect(desk.levelOf(7)).toBe(1);
    const off = await during(100, () => {
      board.command({ kind: 'pump-off' });
    });
    expect(off[0]).toBe('F4 07 01');
    expect(off[1]).toMatch(/^90 .. 00$/);
    expect(desk.levelOf(7)).toBe(0);
  });

  it('is told again each second, with the question whether the board still answers', async () => {
    const { board, during } = connected();
    await during(4000);
    board.command({ kind: 'pump-on', longest: seconds(1200) });
    const sent = await during(3000);
    expect(sent.filter((message) => message === 'F4 07 01')).toHaveLength(3);
    expect(new Set(levels(sent))).toEqual(new Set(['1']));
    expect(sent.filter((message) => message === 'F9')).toHaveLength(3);
  });

  it('that is energised low rests high, before its pin becomes an output', async () => {
    const { desk, during } = connected({ ...WIRING, relay: { pin: 7, energised: 'low' } });
    const sent = await during(4000);
    expect(new Set(levels(sent))).toEqual(new Set(['1']));
    const rests = sent.findIndex((message) => /^90 .. 01$/.test(message));
    expect(rests).toBeLessThan(sent.indexOf('F4 07 01'));
    expect(desk.levelOf(7)).toBe(1);
  });

  it('is let go of by the host itself when the longest of the command is over', async () => {
    const { board, desk, during } = connected();
    await during(4000);
    board.command({ kind: 'pump-on', longest: seconds(60) });
    await during(59_900);
    expect(desk.levelOf(7)).toBe(1);
    const sent = await during(200);
    expect(levels(sent)[0]).toBe('0');
    expect(desk.levelOf(7)).toBe(0);
  });
});

describe('buzzer and lamp', () => {
  it('the buzzer is bit 4 of port 0; the lamp, on a pin with PWM, gets 255: 1 · 128 + 127', async () => {
    const { board, desk, during } = connected();
    await during(4000);
    const sent = await during(1100, () => {
      board.show({ buzzer: 'sounding', lamp: 'lit' });
    });
    expect(sent.filter((message) => /^90 [1357]. 00$/.test(message))).not.toEqual([]);
    expect(sent).toContain('E6 7F 01');
    expect([desk.levelOf(4), desk.levelOf(6)]).toEqual([1, 1]);
  });
});
