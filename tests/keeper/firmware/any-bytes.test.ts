import { beforeAll, describe, expect, it } from 'vitest';
import type { KeeperStatus } from '../../../firmware-host/devices/keeper/status.ts';
import { bytesOf } from '../../../firmware-host/devices/keeper/host-message.ts';
import { seededDice } from '../../../sim/dice.ts';
import { BARE, BRISK, keptBoard, type KeptBoard, type Run } from './kept-board.ts';
import { noise, recordedHost, storm } from './storm.ts';
import { talkWith } from './talk.ts';

/** Pins of the setup: outputs, and contacts as inputs with pull-ups. */
const SETUP = {
  ...BARE,
  tankFloat: { pin: 4, level: 'low' },
  leakSensor: { pin: 9, level: 'low' },
  returnFlow: { kind: 'switch', pin: 2, level: 'low' },
  buzzer: 5,
  lamp: 6,
  button: 8,
  probe: { channel: 2, drivenBy: [11, 12] },
} as const;
const { pin: RELAY } = SETUP.relay;
const CONTACTS = [2, 4, 8, 9];
const STEADY = [RELAY, SETUP.buzzer, SETUP.lamp];
/** Of the recorded host the epoch is another, so that all it says is stale; here SRAM begins with this byte. */
const SRAM_FILL = 0x5a;
/** What a board may be late with its second: a few whole answers to write first, of 105 bytes each. */
const LATE_SECONDS = 0.25;
const COUNT = 500_000;
const BYTES_A_BURST = 1000;

/** Water runs at pin 2 as long as the pump does, so that floods are confirmed. */
const watered = (): KeptBoard => keptBoard({ setup: SETUP, table: BRISK, sramFill: SRAM_FILL });
const passWatered = (board: KeptBoard, seconds: number): void => {
  board.wires.set(2, board.ran.at(-1)?.until === Infinity ? 0 : 1);
  board.pass(seconds);
};
const apart = (one: readonly Run[], other: readonly Run[]): number =>
  Math.max(
    ...one.map(({ from, until }, place) => {
      const { from: begun = NaN, until: ended = NaN } = other[place] ?? {};
      return Math.max(Math.abs(from - begun), until === ended ? 0 : Math.abs(until - ended));
    }),
  );

let recorded: readonly number[];
beforeAll(async () => {
  recorded = await recordedHost();
});

describe('500 000 random and spoilt bytes to a board that keeps the plants alone', () => {
  let board: KeptBoard;
  let alone: KeptBoard;
  let after: KeeperStatus;
  let written: number;
  beforeAll(() => {
    board = watered();
    alone = watered();
    const dice = seededDice(31);
    const step = (bytes: readonly number[]): void => {
      board.hear(bytes);
      for (const each of [board, alone]) passWatered(each, 1);
    };
    // Half of them without a pause, half in bursts between which the board comes to itself.
    for (let sent = 0; sent < COUNT / 2; sent += 5000) step(noise(recorded, dice, 5000));
    for (let sent = 0; sent < COUNT / 2; sent += BYTES_A_BURST) step(noise(recorded, dice, BYTES_A_BURST));
    for (const each of [board, alone]) passWatered(each, 2);
    board.said();
    written = board.chip.tally().eepromWrites;
    after = talkWith(board).status();
  }, 120_000);

  it('reset nothing, neither by watchdog nor by a jump to the start', () => {
    expect(board.chip.resets()).toEqual({ 'power-on': 1, external: 0, 'brown-out': 0, watchdog: 0 });
    expect(after).toMatchObject({ resets: 0, resetCauses: ['power-on'], owner: 'keeper' });
    expect(Math.abs(after.uptimeSeconds - board.now())).toBeLessThan(2);
  });
  it('move no start and no end of the two floods by more than 0.25 s, and make none', () => {
    expect(alone.ran.length).toBe(2);
    expect(board.ran.length).toBe(2);
    expect(apart(board.ran, alone.ran)).toBeLessThan(LATE_SECONDS);
  });
  it('write nothing to the EEPROM', () => {
    expect(written).toBe(alone.chip.tally().eepromWrites);
    expect(board.chip.eeprom()).toEqual(alone.chip.eeprom());
  });
  it('were heard: spoilt frames are counted', () => {
    expect(after.framesDropped).toBeGreaterThan(1000);
  });
  it('leave more than 200 bytes of stack never used', () => {
    expect(after.roomBytes).toBeGreaterThan(200);
  });
  it('keep every output of the keeper an output from its first moment on', () => {
    const letGo = board.edges.filter(({ pin, level }) => STEADY.includes(pin) && level === 'floating');
    expect(letGo).toEqual([]);
  });
  it('drive no contact of the keeper', () => {
    expect(board.edges.filter(({ pin }) => CONTACTS.includes(pin))).toEqual([]);
  });
});

describe('500 000 random and spoilt bytes between the words of a host that owns the pump', () => {
  interface Hosted {
    readonly board: KeptBoard;
    readonly owned: readonly KeeperStatus[];
    readonly before: Uint8Array;
  }
  /** 500 s in which a host beats each second and floods for 40 s in every 100, with noise or in peace. */
  const hosted = (noisy: boolean): Hosted => {
    const board = watered();
    passWatered(board, 5);
    const talk = talkWith(board);
    const epoch = talk.claim();
    const before = board.chip.eeprom();
    const dice = seededDice(32);
    const owned: KeeperStatus[] = [];
    for (let second = 0; second < COUNT / BYTES_A_BURST; second += 1) {
      const began = board.now();
      // Some of the noise breaks off in the midst of a message, and the host's next word comes at once.
      if (noisy) board.hear(noise(recorded, dice, BYTES_A_BURST));
      passWatered(board, 0.6);
      board.said();
      talk.beat(epoch);
      if (second % 100 === 20) talk.ask({ kind: 'pump', epoch, on: true, longestSeconds: 90 });
      if (second % 100 === 60) talk.ask({ kind: 'pump', epoch, on: false, longestSeconds: 0 });
      owned.push(talk.status());
      passWatered(board, Math.max(0, began + 1 - board.now()));
    }
    return { board, owned, before };
  };
  let noisy: Hosted;
  let quiet: Hosted;
  beforeAll(() => {
    noisy = hosted(true);
    quiet = hosted(false);
  }, 120_000);

  it('reset nothing', () => {
    expect(noisy.board.chip.resets()).toEqual({ 'power-on': 1, external: 0, 'brown-out': 0, watchdog: 0 });
    expect(noisy.owned.at(-1)).toMatchObject({ resets: 0 });
  });
  it('take the pump from nobody: the host owns it in all of 500 seconds, by the same epoch', () => {
    expect(noisy.owned.filter(({ owner }) => owner !== 'host')).toEqual([]);
    expect(new Set(noisy.owned.map(({ epoch }) => epoch)).size).toBe(1);
  });
  it("run the pump for the host's five floods and for nothing else, within 0.5 s of a quiet line", () => {
    expect(quiet.board.ran.length).toBe(5);
    expect(noisy.board.ran.length).toBe(5);
    expect(apart(noisy.board.ran, quiet.board.ran)).toBeLessThan(0.5);
  });
  it('put no table, and no hold', () => {
    expect(noisy.board.chip.eeprom()).toEqual(noisy.before);
    expect(noisy.owned.filter(({ holdSecondsLeft }) => holdSecondsLeft > 0)).toEqual([]);
  });
});

describe('a line that never falls silent', () => {
  const QUESTIONS = [
    ['status questions', [...bytesOf(1, { kind: 'status' })]],
    ['log questions', [...bytesOf(1, { kind: 'log-get', from: 0 })]],
    ['version questions of one byte', [0xf9]],
    ['capability questions', [0xf0, 0x6b, 0xf7]],
    ['beginnings of frames', [0xf0, 0x0a]],
  ] as const satisfies readonly (readonly [string, readonly number[]])[];
  const SECONDS = 60;
  const BYTES_A_SECOND = 5760;
  const DOWN = 30;

  it.each(QUESTIONS)(
    '%s for 60 s keep the board from no second, no flood and no finger on the button',
    (_, question) => {
      const board = keptBoard({ setup: SETUP, sramFill: SRAM_FILL });
      board.wires.set(SETUP.button, 1);
      const asked = Array.from(
        { length: Math.ceil(BYTES_A_SECOND / question.length) },
        () => question,
      ).flat();
      for (let second = 0; second < SECONDS; second += 1) {
        if (second === DOWN) board.wires.set(SETUP.button, 0);
        board.hear(asked);
        board.pass(1);
      }
      const stopped = board.ran.at(-1)!.until;
      board.pass(12);
      board.said();
      const status = talkWith(board).status();
      expect(board.chip.resets().watchdog).toBe(0);
      expect(Math.abs(status.uptimeSeconds - board.now())).toBeLessThan(2);
      expect(board.ran.map(({ from }) => Math.round(from))).toEqual([15]);
      // A long press stops the pump 3 s after the finger came down; each look may wait for an answer on the line.
      expect(stopped).toBeGreaterThan(DOWN + 3);
      expect(stopped).toBeLessThan(DOWN + 9);
      expect(status.holdSecondsLeft).toBeGreaterThan(0);
    },
  );
});

describe('a storm of 100 000 bytes', () => {
  it('leaves every word of a host understood', () => {
    const board = keptBoard({ setup: SETUP, sramFill: SRAM_FILL });
    storm(board, recorded, 33, 100_000);
    board.pass(2);
    board.said();
    const talk = talkWith(board);
    expect(talk.ask({ kind: 'hello' })).toMatchObject({ kind: 'hello', protocol: { major: 1, minor: 0 } });
    const epoch = talk.claim();
    expect(talk.ask({ kind: 'hold', epoch, seconds: 60, longPresses: 0 })).toMatchObject({
      kind: 'ack',
      result: 'done',
    });
    expect(talk.ask({ kind: 'table-get' })).toMatchObject({ kind: 'table', slot: 2 });
    expect(talk.ask({ kind: 'let-go', epoch })).toMatchObject({ kind: 'ack', result: 'done' });
  });
});
