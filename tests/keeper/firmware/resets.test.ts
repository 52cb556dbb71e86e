import { describe, expect, it } from 'vitest';
import { IO, type ResetCause } from '../../../sim/board/avr/registers.ts';
import { hangingIn } from './hanging.ts';
import { BARE, BRISK, imageWith, keptBoard, type KeptBoard, type KeptBoardAsked } from './kept-board.ts';
import { talkWith } from './talk.ts';

const RELAY = BARE.relay.pin;
/** Firmata: reports of analog channel 0, which call the interrupt of the converter. */
const REPORT_ANALOG = [0xc0, 1];
/** Floods of a minute and rests of six, and parts that tell all that they do. */
const SETUP = { ...BARE, buzzer: 5, lamp: 6, tankFloat: { pin: 4, level: 'low' } } as const;
const TABLE = {
  ...BRISK,
  parts: [{ fromMinute: 0, restSeconds: 360, coolRestSeconds: 360, floodSeconds: 60 }],
} as const;

const HANGS = imageWith(SETUP, TABLE, hangingIn('ADC'));
type Cause = Exclude<ResetCause, 'power-on'>;
/** By the pin, by the supply, or by hanging until the watchdog bites. */
const reset = (board: KeptBoard, cause: Cause): void => {
  if (cause === 'watchdog') {
    board.hear(REPORT_ANALOG);
    board.pass(2.3);
  } else board.chip.reset(cause);
};
const CAUSES: readonly Cause[] = ['external', 'brown-out', 'watchdog'];
const powered = (asked: KeptBoardAsked = {}): KeptBoard =>
  keptBoard({ setup: SETUP, table: TABLE, flash: HANGS, ...asked });
const awake = 0.3;

describe('the cause of a reset', () => {
  it.each(CAUSES)('is told in the status: %s', (cause) => {
    const board = powered();
    board.pass(3);
    reset(board, cause);
    board.pass(awake);
    expect(talkWith(board).status()).toMatchObject({ resetCauses: [cause], resets: 1 });
    expect(board.chip.resets()[cause]).toBe(1);
  });
  it('is told after power-on too', () => {
    const board = powered();
    board.pass(awake);
    expect(talkWith(board).status()).toMatchObject({ resetCauses: ['power-on'], resets: 0 });
  });
  it.each(['power-on', ...CAUSES] as const)('is told where a bootloader hands it on in r2: %s', (cause) => {
    const waitMillis = { 'power-on': 500, external: 500 };
    const board = powered({ bootloader: { leaves: 'cause-in-r2', waitMillis } });
    board.pass(3);
    if (cause !== 'power-on') reset(board, cause);
    board.pass(awake + 0.5);
    expect(talkWith(board).status().resetCauses).toEqual([cause]);
  });
});

describe('the relay, from a reset in the midst of a flood on', () => {
  const POLARITIES = [
    ['pump-stops', 'high', 0],
    ['pump-stops', 'low', 1],
    ['pump-runs', 'high', 1],
    ['pump-runs', 'low', 0],
    ['plain-timer', 'high', 0],
  ] as const;
  it.each(CAUSES.flatMap((cause) => POLARITIES.map((row) => [cause, ...row] as const)))(
    '%s, %s, pulled by a %s level: floats at once, and stands at %i within 5 ms, before any other pin',
    (cause, deadBoard, level, off) => {
      const setup = { ...SETUP, deadBoard, relay: { pin: RELAY, level } };
      const board = powered({ setup, flash: imageWith(setup, TABLE, hangingIn('ADC')) });
      board.pass(40);
      expect(board.levelOf(RELAY)).toBe(1 - off);
      const { length } = board.edges;
      reset(board, cause);
      board.pass(awake);
      const after = board.edges.slice(length);
      const floated = after.findIndex(({ pin, level: seen }) => pin === RELAY && seen === 'floating');
      const driven = after.slice(floated).filter(({ level: seen }) => seen !== 'floating');
      expect(floated).toBeGreaterThanOrEqual(0);
      expect(driven[0]).toMatchObject({ pin: RELAY, level: off });
      expect(driven[0]!.at - after[floated]!.at).toBeLessThan(0.005);
      expect(new Set(driven.filter(({ pin }) => pin === RELAY).map(({ level: seen }) => seen))).toEqual(
        new Set([off]),
      );
    },
  );
  it('goes to its level before any other pin after power-on, within 5 ms', () => {
    const board = powered();
    board.pass(awake);
    expect(board.edges[0]).toMatchObject({ pin: RELAY, level: 0 });
    expect(board.edges[0]!.at).toBeLessThan(0.005);
  });
  it('floats as long as a bootloader has the chip: 1.6 s', () => {
    const board = powered({ bootloader: { leaves: 'all-as-found', waitMillis: { external: 1600 } } });
    board.pass(40);
    const { length } = board.edges;
    board.chip.reset('external');
    board.pass(1.59);
    expect(board.edges.slice(length).filter(({ level }) => level !== 'floating')).toEqual([]);
    board.pass(0.02);
    expect(board.levelOf(RELAY)).toBe(0);
  });
});

describe('what a board still knows after a reset', () => {
  const FLOODED = { from: 15, seconds: 60 };
  it.each(CAUSES)('%s: hold, age of the last flood, time of day and epoch are what they were', (cause) => {
    const board = powered();
    // The flood from 15 s to 75 s is the last one.
    board.pass(100);
    const talk = talkWith(board);
    const epoch = talk.claim();
    talk.beat(epoch, 725);
    talk.ask({ kind: 'hold', epoch, seconds: 3000, longPresses: 0 });
    const before = talk.status();
    const at = board.now();
    reset(board, cause);
    board.pass(awake);
    const after = talk.status();
    const lost = board.now() - at;
    // A second of the board may fall between the hold and the question.
    expect(before.holdSecondsLeft).toBeGreaterThanOrEqual(2999);
    expect(before.holdSecondsLeft - after.holdSecondsLeft).toBeLessThanOrEqual(Math.ceil(lost));
    expect(after.epoch).toBe((before.epoch + 1) % 0x1_0000);
    expect(after.owner).toBe('keeper');
    expect(after.minuteOfDay).toBe(725);
    expect(after.lastFlood).toMatchObject({ ranSeconds: FLOODED.seconds });
    expect(after.lastFlood!.startedSecondsAgo).toBeGreaterThanOrEqual(before.lastFlood!.startedSecondsAgo);
    expect(after.lastFlood!.startedSecondsAgo).toBeLessThan(before.lastFlood!.startedSecondsAgo + 4);
    expect(after.flags.firstFloodDue).toBe(false);
  });
  it.each(CAUSES)(
    '%s in a rest: the next flood comes when the rest of 360 s is over, late by the reset alone',
    (cause) => {
      const board = powered();
      board.pass(200);
      const at = board.now();
      reset(board, cause);
      const lost = board.now() - at;
      board.pass(400);
      const [first, second] = board.ran;
      // What the firmware needs to start, its clock test among it, is not counted by its seconds.
      expect(second!.from - first!.until).toBeGreaterThan(360 - 1);
      expect(second!.from - first!.until).toBeLessThan(360 + lost + 1.5);
    },
  );
  it('nothing after a loss of power: no hold, no age, no time of day; a first flood is due', () => {
    const board = powered();
    board.pass(100);
    const talk = talkWith(board);
    const epoch = talk.claim();
    talk.beat(epoch, 725);
    talk.ask({ kind: 'hold', epoch, seconds: 3000, longPresses: 0 });
    board.chip.powerOff();
    board.pass(5);
    board.chip.powerOn();
    board.pass(awake);
    expect(talk.status()).toMatchObject({
      holdSecondsLeft: 0,
      lastFlood: null,
      minuteOfDay: null,
      resets: 0,
      flags: { firstFloodDue: true },
    });
  });
  it.each(CAUSES)('%s: a water alarm lights the lamp again within 0.1 s', (cause) => {
    // A flood of which no water comes back.
    const setup = { ...SETUP, returnFlow: { kind: 'switch', pin: 2, level: 'low' } } as const;
    const board = powered({ setup, flash: imageWith(setup, TABLE, hangingIn('ADC')) });
    board.wires.set(2, 1);
    board.pass(100);
    expect(talkWith(board).status().flags.missedFlood).toBe(true);
    expect(board.levelOf(SETUP.lamp)).toBe(1);
    if (cause === 'watchdog') board.hear(REPORT_ANALOG);
    const resets = board.chip.resets()[cause];
    if (cause !== 'watchdog') board.chip.reset(cause);
    while (board.chip.resets()[cause] === resets) board.pass(0.001);
    board.pass(0.1);
    expect(board.levelOf(SETUP.lamp)).toBe(1);
    board.pass(3);
    expect(board.levelOf(SETUP.lamp)).toBe(1);
  });
});

describe('after power-on', () => {
  it.each([
    [10, 15],
    [30, 31],
    [60, 61],
  ])(
    'with a shortest-off of %i s the first flood starts %i s after it, and the table goes on from its end',
    (off, from) => {
      const setup = { ...SETUP, shortestOffSeconds: off };
      const board = powered({ setup, flash: imageWith(setup, TABLE) });
      board.pass(1000);
      const [first, second, third] = board.ran;
      expect(Math.abs(first!.from - from)).toBeLessThan(0.2);
      expect(Math.round(first!.until - first!.from)).toBe(60);
      expect(Math.round(second!.from - first!.until)).toBe(360);
      expect(Math.round(third!.from - second!.until)).toBe(360);
    },
  );
});

describe('the watchdog', () => {
  /** WDE, and WDP2 to WDP0: ATmega328P data sheet, "Watchdog Timer Prescale Select", 2.0 s. */
  const ARMED_FOR_2_S = 0x0f;
  const BITS = 0x2f;
  it('is armed for 2 s, with a reset and no interrupt', () => {
    const board = powered();
    board.pass(1);
    expect(board.chip.register(IO.WDTCSR) & (BITS | 0x40)).toBe(ARMED_FOR_2_S);
  });
  it('is off where the setup says so, for bootloaders that would loop', () => {
    const setup = { ...SETUP, watchdog: 'off' } as const;
    const board = powered({ setup, flash: imageWith(setup, TABLE) });
    board.pass(1);
    expect(board.chip.register(IO.WDTCSR) & (BITS | 0x40) & 0x48).toBe(0);
  });
  it('resets a board that hangs in an interrupt, 2 s after it was last kicked, and lets go of the relay', () => {
    const board = powered();
    board.pass(40);
    expect(board.levelOf(RELAY)).toBe(1);
    const at = board.now();
    const { length } = board.edges;
    board.hear(REPORT_ANALOG);
    board.pass(3);
    const floated = board.edges.slice(length).find(({ pin, level }) => pin === RELAY && level === 'floating');
    expect(floated!.at - at).toBeGreaterThan(1.9);
    expect(floated!.at - at).toBeLessThan(2.3);
    expect(board.chip.resets().watchdog).toBe(1);
  });
  it('resets again and again a board whose clock hangs at its first second, and the pump never runs', () => {
    const board = powered({ flash: imageWith(SETUP, TABLE, hangingIn('TIMER1_COMPA')) });
    board.pass(60);
    expect(board.chip.resets().watchdog).toBeGreaterThan(15);
    expect(board.ran).toEqual([]);
  });
  it('lets a board live on that was hung once, and it floods by its table', () => {
    const board = powered();
    board.pass(100);
    reset(board, 'watchdog');
    board.pass(1000);
    expect(board.chip.resets().watchdog).toBe(1);
    expect(board.ran.length).toBeGreaterThan(2);
  });
});

describe('a board that is reset again and again', () => {
  const WINDOW_SECONDS = 600;
  const SETTLE_SECONDS = 15;
  const startsIn = (starts: readonly number[], window: number): number =>
    Math.max(0, ...starts.map((from) => starts.filter((at) => at >= from && at < from + window).length));
  const again = (every: number, seconds: number, how: 'reset' | 'power'): readonly number[] => {
    const board = keptBoard({ setup: BARE, table: BRISK });
    for (let passed = 0; passed < seconds; passed += every) {
      board.pass(every);
      if (how === 'reset') board.chip.reset('external');
      else {
        board.chip.powerOff();
        board.pass(0.5);
        board.chip.powerOn();
      }
    }
    return board.ran.map(({ from }) => from);
  };

  it('every 1 to 15 s never starts the pump: it has not settled', () => {
    for (let every = 1; every <= SETTLE_SECONDS; every += 1)
      expect([every, again(every, 150, 'reset')]).toEqual([every, []]);
  });
  it('every 16 to 120 s starts the pump at least once in 25 min, and at most twice in any 10 min', () => {
    for (let every = SETTLE_SECONDS + 1; every <= 120; every += 1) {
      const starts = again(every, 1500, 'reset');
      expect([every, starts.length > 0, startsIn(starts, WINDOW_SECONDS) <= 2]).toEqual([every, true, true]);
    }
  }, 180_000);
  it('by its supply, every 17 to 120 s, starts the pump at least once in 25 min, and at most twice in any 10 min', () => {
    for (let every = SETTLE_SECONDS + 2; every <= 120; every += 6) {
      const starts = again(every, 1500, 'power');
      expect([every, starts.length > 0, startsIn(starts, WINDOW_SECONDS) <= 2]).toEqual([every, true, true]);
    }
  }, 180_000);
});
