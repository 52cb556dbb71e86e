import { beforeAll, describe, expect, it } from 'vitest';
import { crc16 } from '../../../firmware-host/devices/keeper/crc.ts';
import { SETUP_AT } from '../../../firmware-host/firmware-image/flash-image.ts';
import { seededDice } from '../../../sim/dice.ts';
import { tableBytes } from '../../../src/farm/table-bytes.ts';
import { program } from '../image.ts';
import { BARE, BRISK, imageWith, keptBoard, type KeptBoard } from './kept-board.ts';
import { recordedHost, storm } from './storm.ts';
import { talkWith } from './talk.ts';

const WELL = imageWith(BARE, BRISK);
const flipped = (bytes: Uint8Array, at: number, bit: number): Uint8Array => {
  const spoilt = Uint8Array.from(bytes);
  spoilt[at] = spoilt[at]! ^ (1 << bit);
  return spoilt;
};
const awake = (board: KeptBoard): KeptBoard => {
  board.pass(0.3);
  return board;
};

describe('a board that is well', () => {
  it('tells no failed test', () => {
    expect(talkWith(awake(keptBoard())).status()).toMatchObject({
      failedTests: [],
      flags: { selfTestFailed: false, clockSuspect: false, notSetUp: false },
    });
  });
  it('tells its four fuse bytes', () => {
    const fuses = { low: 0xf7, high: 0xd6, extended: 0xfc, lock: 0xcf };
    expect(talkWith(awake(keptBoard({ fuses }))).status().fuses).toEqual(fuses);
  });
});

describe('one bit of the program that has turned over', () => {
  /** Words that are never carried out here: the unused vector of the comparator, number 23, and the last of the texts. */
  const UNUSED_VECTOR = 23 * 4;
  const MESSAGE = 'RillkeeperBoard';
  const nameAt = ((): number => Buffer.from(program()).indexOf(MESSAGE))();

  it.each([
    ['in a vector that nobody calls', UNUSED_VECTOR],
    ['in the name that it tells', nameAt],
  ])('%s is told as a failed test of the flash, and the plants are kept as before', (_, at) => {
    const board = awake(keptBoard({ flash: flipped(WELL, at, 1) }));
    expect(talkWith(board).status()).toMatchObject({
      failedTests: ['flash'],
      flags: { selfTestFailed: true, notSetUp: false },
    });
    board.pass(400);
    expect(board.ran.map(({ from, until }) => [Math.round(from), Math.round(until)])).toEqual([
      [15, 45],
      [225, 255],
    ]);
  });
});

describe('a setup that is spoilt', () => {
  const AREA_FROM = SETUP_AT + 4;
  const CRC_END = SETUP_AT + 148;

  it('in any of its 144 bytes, by one bit: not set up, said so, and no pin is driven in a minute', () => {
    const wrong: unknown[] = [];
    for (let at = AREA_FROM; at < CRC_END; at += 1) {
      const board = awake(keptBoard({ flash: flipped(WELL, at, at % 8) }));
      const { flags, failedTests } = talkWith(board).status();
      board.pass(60);
      const told = failedTests.length === 1 && failedTests[0] === 'setup';
      if (!flags.notSetUp || !told || board.edges.length > 0)
        wrong.push({ at, flags, failedTests, edges: board.edges });
    }
    expect(wrong).toEqual([]);
  });
  it('refuses claim-bound orders with "not set up" and runs no pump', () => {
    const board = awake(keptBoard({ flash: flipped(WELL, AREA_FROM + 2, 0) }));
    const talk = talkWith(board);
    const epoch = talk.claim();
    expect(talk.ask({ kind: 'pump', epoch, on: true, longestSeconds: 60 })).toMatchObject({
      result: 'not-set-up',
    });
    expect(talk.ask({ kind: 'hold', epoch, seconds: 60, longPresses: 0 })).toMatchObject({
      result: 'not-set-up',
    });
    expect(talk.ask({ kind: 'table-put', epoch, table: tableBytes(BRISK) })).toMatchObject({
      result: 'not-set-up',
    });
    board.pass(60);
    expect(board.edges).toEqual([]);
  });
  it('that was never there is no failed test: the board is as new', () => {
    const blank = Uint8Array.from(WELL).fill(0xff, AREA_FROM, CRC_END);
    const board = awake(keptBoard({ flash: blank }));
    expect(talkWith(board).status()).toMatchObject({ failedTests: [], flags: { notSetUp: true } });
    board.pass(60);
    expect(board.edges).toEqual([]);
  });
});

describe('a slot of the EEPROM in which one bit has turned over', () => {
  const longer = (rest: number): Uint8Array =>
    tableBytes({ ...BRISK, parts: [{ ...BRISK.parts[0]!, restSeconds: rest, coolRestSeconds: rest }] });
  const [OLD, NEW] = [longer(300), longer(420)] as const;
  const SLOT_BYTES = 96;
  /** Magic, number, length, table and checksum. */
  const USED_BYTES = 4 + OLD.length + 2;

  const stored = ((): Uint8Array => {
    const board = awake(keptBoard());
    const talk = talkWith(board);
    const epoch = talk.claim();
    talk.ask({ kind: 'table-put', epoch, table: OLD });
    talk.ask({ kind: 'table-put', epoch, table: NEW });
    return board.chip.eeprom();
  })();
  const tableOf = (
    eeprom: Uint8Array,
  ): { readonly slot: unknown; readonly crc: number; readonly failed: readonly string[] } => {
    const { table, failedTests } = talkWith(awake(keptBoard({ eeprom }))).status();
    return { slot: table.slot, crc: table.crc, failed: failedTests };
  };

  it('the newer table holds while both are whole, and nothing has failed', () => {
    expect(tableOf(stored)).toEqual({ slot: 1, crc: crc16(NEW), failed: [] });
  });
  it('in any byte of the newer one: the older one holds, and a failed test of the EEPROM is told', () => {
    const seen = Array.from({ length: USED_BYTES }, (_, at) =>
      tableOf(flipped(stored, SLOT_BYTES + at, at % 8)),
    );
    expect(new Set(seen.map(({ slot, crc }) => `${String(slot)} ${crc}`))).toEqual(
      new Set([`0 ${crc16(OLD)}`]),
    );
    expect(seen.filter(({ failed }) => failed.join() !== 'EEPROM')).toEqual([]);
  });
  it('in one byte of each: the table of the flash holds, and a failed test is told', () => {
    const dice = seededDice(51);
    for (let pair = 0; pair < 20; pair += 1) {
      const at = (base: number): number => base + Math.floor(dice() * USED_BYTES);
      const eeprom = flipped(flipped(stored, at(0), 3), at(SLOT_BYTES), 5);
      expect(tableOf(eeprom)).toEqual({ slot: 'flash', crc: crc16(tableBytes(BRISK)), failed: ['EEPROM'] });
    }
  });
  it('keeps the plants by what holds: rests of 300 s in place of 420 s', () => {
    const board = keptBoard({ eeprom: flipped(stored, SLOT_BYTES + 10, 2) });
    board.pass(1000);
    const [first, second] = board.ran;
    expect(Math.round(second!.from - first!.until)).toBe(300);
  });
});

describe("a clock that is off against the watchdog's own oscillator", () => {
  it.each([
    ['0.7 times as fast', -0.3],
    ['1.6 times as fast', 0.6],
  ])('%s is told as suspect, and the plants are kept', (_, watchdogError) => {
    const board = awake(keptBoard({ watchdogError }));
    expect(talkWith(board).status()).toMatchObject({ failedTests: ['clock'], flags: { clockSuspect: true } });
    board.pass(60);
    expect(board.ran.length).toBe(1);
  });
  it.each([-0.1, 0.1])('an oscillator %f off, as a warm one may be, is not suspect', (watchdogError) => {
    expect(talkWith(awake(keptBoard({ watchdogError }))).status().failedTests).toEqual([]);
  });
});

describe('the stack, after a day alone, every word of a host and 100 000 random and spoilt bytes', () => {
  let recorded: readonly number[];
  beforeAll(async () => {
    recorded = await recordedHost();
  });
  it('has left more than 200 bytes never used', () => {
    const board = keptBoard();
    board.pass(86_400);
    storm(board, recorded, 52, 100_000);
    board.pass(2);
    board.said();
    const talk = talkWith(board);
    const epoch = talk.claim();
    const full = tableBytes({
      ...BRISK,
      parts: Array.from({ length: 8 }, (_, place) => ({ ...BRISK.parts[0]!, fromMinute: place * 60 })),
    });
    talk.ask({ kind: 'hello' });
    talk.ask({ kind: 'log-get', from: 0 });
    expect(talk.ask({ kind: 'table-put', epoch, table: full })).toMatchObject({ result: 'done' });
    talk.ask({ kind: 'table-get' });
    expect(talk.status().roomBytes).toBeGreaterThan(200);
  });
});
