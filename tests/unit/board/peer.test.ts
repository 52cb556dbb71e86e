import { describe, expect, it } from 'vitest';
import { BrokenAssertion } from '../../../src/units/assertion.ts';
import { INPUT_BYTES_MAX } from '../../../sim/board/firmata/peer.ts';
import { answerTo, BOOT_MILLIS, bytesOf, messagesIn, onDesk, started } from './desk.ts';

const HELLO = ['F9 02 08', 'F0 79 03 04 41 00 62 00 F7'];

describe('opening the port', () => {
  it('drops a running output at once, and it stays floating until the firmware starts', () => {
    const desk = started();
    answerTo(desk, 'F5 08 01');
    desk.peer.open(5000);
    expect(desk.levelOf(8)).toBe('floating');
    desk.peer.advance(5000 + BOOT_MILLIS - 1);
    expect(desk.levelOf(8)).toBe('floating');
    desk.peer.advance(5000 + BOOT_MILLIS);
    expect(desk.levelOf(8)).toBe(0);
  });

  it('is followed by 1500 ms of silence and then by version and firmware', () => {
    const { peer } = onDesk();
    peer.open(0);
    expect(peer.nextDue(0)).toBe(BOOT_MILLIS);
    peer.advance(BOOT_MILLIS - 1);
    expect(peer.take()).toHaveLength(0);
    peer.advance(BOOT_MILLIS);
    expect(messagesIn(peer.take())).toEqual(HELLO);
  });

  it('swallows what is sent while the board starts: the relay does not close later', () => {
    const desk = onDesk();
    desk.peer.open(0);
    desk.peer.receive(bytesOf('F5 08 01'), 700);
    desk.peer.advance(10_000);
    expect(desk.levelOf(8)).toBe(0);
    expect(desk.peer.tally()).toMatchObject({ unheardBytes: 3, parser: { heardBytes: 0 } });
  });

  it('swallows half a message that straddles the start', () => {
    const desk = onDesk();
    desk.peer.open(0);
    desk.peer.receive(bytesOf('F5 08'), BOOT_MILLIS - 1);
    desk.peer.receive(bytesOf('01'), BOOT_MILLIS);
    expect(desk.levelOf(8)).toBe(0);
  });

  it('forgets half a message from before', () => {
    const desk = started();
    answerTo(desk, 'F5 08');
    desk.peer.open(5000);
    desk.peer.receive(bytesOf('01'), 5000 + BOOT_MILLIS);
    expect(desk.levelOf(8)).toBe(0);
  });

  it('gives no byte of the connection before', () => {
    const desk = started();
    desk.peer.receive(bytesOf('F0 6B F7'), 2000);
    desk.peer.open(3000);
    expect(desk.peer.take()).toHaveLength(0);
  });

  it('stops reports and sets the interval back to 19 ms', () => {
    const desk = started();
    answerTo(desk, 'C0 01 F0 7A 68 07 F7');
    desk.peer.open(5000);
    desk.peer.advance(5000 + BOOT_MILLIS);
    desk.peer.take();
    expect(answerTo(desk, 'F0 7C F7', 20_000)).toEqual(['F0 7A 13 00 F7']);
  });

  it('takes 1500 ms each time, also the third', () => {
    const { peer } = onDesk();
    for (const openedAt of [1000, 5000, 9000]) {
      peer.open(openedAt);
      expect(peer.nextDue(openedAt)).toBe(openedAt + BOOT_MILLIS);
      peer.advance(openedAt + BOOT_MILLIS - 1);
      expect(peer.take()).toHaveLength(0);
      peer.advance(openedAt + BOOT_MILLIS);
      expect(messagesIn(peer.take())).toEqual(HELLO);
    }
  });

  it('twice within the start begins it anew', () => {
    const { peer } = onDesk();
    peer.open(0);
    peer.open(1000);
    peer.advance(BOOT_MILLIS);
    expect(peer.take()).toHaveLength(0);
    peer.advance(1000 + BOOT_MILLIS);
    expect(messagesIn(peer.take())).toEqual(HELLO);
  });
});

describe('closing the port', () => {
  it('leaves the pump output as it is, unheard', () => {
    const desk = started();
    answerTo(desk, 'F5 08 01 C0 01');
    desk.peer.close(2000);
    desk.peer.receive(bytesOf('F5 08 00'), 2001);
    desk.peer.advance(60_000);
    expect(desk.levelOf(8)).toBe(1);
    expect(desk.peer.take()).toHaveLength(0);
    expect(desk.peer.nextDue(60_000)).toBeNull();
    expect(desk.peer.tally().unheardBytes).toBe(3);
  });

  it('loses what waited for the host', () => {
    const desk = started();
    desk.peer.receive(bytesOf('F9'), 2000);
    desk.peer.close(2000);
    expect(desk.peer.take()).toHaveLength(0);
  });

  it('during the start does not stop it: outputs are driven low, hello is lost', () => {
    const desk = onDesk();
    desk.peer.open(0);
    desk.peer.close(100);
    expect(desk.peer.nextDue(100)).toBe(BOOT_MILLIS);
    desk.peer.advance(BOOT_MILLIS);
    expect(desk.levelOf(8)).toBe(0);
    expect(desk.peer.take()).toHaveLength(0);
  });
});

describe('a reset by glitch or watchdog', () => {
  it('drops the outputs, and the host hears version and firmware again on the open port', () => {
    const desk = started();
    answerTo(desk, 'F5 08 01 F4 09 03 E9 40 00');
    desk.peer.reset(4000);
    expect([desk.levelOf(8), desk.levelOf(9)]).toEqual(['floating', 'floating']);
    desk.peer.advance(4000 + BOOT_MILLIS);
    expect([desk.levelOf(8), desk.levelOf(9)]).toEqual([0, 0]);
    expect(messagesIn(desk.peer.take())).toEqual(HELLO);
  });

  it('stops reports in silence: only the hello tells', () => {
    const desk = started();
    desk.digital.set(2, 1);
    answerTo(desk, 'C0 01 F4 02 00 D0 01');
    desk.peer.reset(1500);
    desk.peer.advance(60_000);
    expect(messagesIn(desk.peer.take())).toEqual(HELLO);
  });

  it('still delivers what was sent before it', () => {
    const desk = started();
    desk.peer.receive(bytesOf('F9'), 2000);
    desk.peer.reset(2000);
    expect(messagesIn(desk.peer.take())).toEqual(['F9 02 08']);
  });
});

describe('bounds', () => {
  it('hears 4096 bytes at once and counts the others', () => {
    const desk = started();
    const flood = new Uint8Array(INPUT_BYTES_MAX + 10).fill(0x01);
    desk.peer.receive(flood, 2000);
    expect(desk.peer.tally()).toMatchObject({
      overrunBytes: 10,
      parser: { heardBytes: INPUT_BYTES_MAX, droppedBytes: { stray: INPUT_BYTES_MAX } },
    });
  });

  it('answers 4096 version queries with 1365 whole messages and counts the 2731 dropped', () => {
    const desk = started();
    desk.peer.receive(new Uint8Array(INPUT_BYTES_MAX).fill(0xf9), 2000);
    expect(messagesIn(desk.peer.take())).toHaveLength(1365);
    expect(desk.peer.tally().droppedMessages).toBe(INPUT_BYTES_MAX - 1365);
  });

  it.each([
    [
      'time that runs backwards',
      () => {
        started().peer.advance(BOOT_MILLIS - 1);
      },
    ],
    [
      'time that is no number',
      () => {
        started().peer.advance(NaN);
      },
    ],
    ['a start that takes less than nothing', () => onDesk({ bootMillis: -1 })],
    [
      '129 pins',
      () => onDesk({ pins: Array.from({ length: 129 }, () => ({ abilities: [], analogChannel: null })) }),
    ],
    ['a name of 65 letters', () => onDesk({ firmwareName: 'x'.repeat(65) })],
  ])('refuses %s', (_, act) => {
    expect(act).toThrow(BrokenAssertion);
  });

  it('does nothing before it has power', () => {
    const desk = onDesk();
    desk.peer.receive(bytesOf('F5 08 01 F9'), 0);
    desk.peer.advance(100_000);
    expect(desk.driven).toEqual([]);
    expect(desk.peer.take()).toHaveLength(0);
    expect(desk.peer.nextDue(100_000)).toBeNull();
  });
});
