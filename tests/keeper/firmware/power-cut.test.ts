import { describe, expect, it } from 'vitest';
import { crc16 } from '../../../firmware-host/devices/keeper/crc.ts';
import { seededDice } from '../../../sim/dice.ts';
import { tableBytes, type KeeperTable } from '../../../src/farm/table-bytes.ts';
import { BRISK, CYCLES_A_SECOND, keptBoard, type KeptBoard } from './kept-board.ts';
import { talkWith } from './talk.ts';

/** A table of eight parts, with hardly a byte that another one has in its place. */
const full = (grain: number): KeeperTable => ({
  parts: Array.from({ length: 8 }, (_, place) => ({
    fromMinute: 150 * place + 43 * grain,
    restSeconds: 600 + 300 * place + 1031 * grain,
    coolRestSeconds: 6000 + 261 * place + 1029 * grain,
    floodSeconds: 60 + 17 * place + 140 * grain,
  })),
  longestRestSeconds: 12_000 + 515 * grain,
  returnLagSeconds: 100 + 259 * grain,
});
const [FIRST, SECOND, THIRD] = [full(1), full(2), full(3)].map(tableBytes) as [
  Uint8Array,
  Uint8Array,
  Uint8Array,
];
const BLANK = new Uint8Array(1024).fill(0xff);
/** How long a byte takes: ATmega328P data sheet, "EEPROM Mode Bits", erase and write in one operation. */
const BYTE_SECONDS = 3.4e-3;

/** What the cut makes of the byte that is being written; `whole`: power goes between two bytes. */
type Way = 'erased' | 'random' | 'whole';

interface Put {
  readonly acked: boolean;
  readonly eeprom: Uint8Array;
  /** Bytes that were begun. */
  readonly begun: number;
}

/** A board with that EEPROM is told a table by a host; power goes at byte `cutAt` of those that it writes. */
const put = (eeprom: Uint8Array, table: Uint8Array, cutAt = Infinity, way: Way = 'erased', seed = 1): Put => {
  let begun = 0;
  let counts = false;
  let cutBetween: number | null = null;
  const board: KeptBoard = keptBoard({
    table: BRISK,
    eeprom,
    seed,
    halfWritten: way === 'random' ? 'random' : 'erased',
    beforeEepromWrite: () => {
      if (!counts) return 'go on';
      begun += 1;
      if (begun !== cutAt + 1) return 'go on';
      if (way !== 'whole') return 'cut';
      cutBetween = board.chip.cycles() + Math.ceil(BYTE_SECONDS * CYCLES_A_SECOND) + 1;
      return 'go on';
    },
  });
  board.pass(0.3);
  const talk = talkWith(board);
  const epoch = talk.claim();
  counts = true;
  // A look comes within 2 ms, and the byte takes longer.
  const cut = (): void => {
    if (cutBetween === null) return;
    board.chip.advanceTo(cutBetween);
    board.chip.powerOff();
  };
  const told = talk.ask({ kind: 'table-put', epoch, table }, cut);
  return { acked: told?.kind === 'ack' && told.result === 'done', eeprom: board.chip.eeprom(), begun };
};

interface Woken {
  readonly crc: number;
  readonly slot: number | 'flash';
}
/** What a board tells of its table that gets power with that EEPROM. */
const woken = (eeprom: Uint8Array): Woken => {
  const board = keptBoard({ table: BRISK, eeprom });
  board.pass(0.3);
  const { crc, slot } = talkWith(board).status().table;
  return { crc, slot };
};

const after = (...tables: readonly Uint8Array[]): Uint8Array =>
  tables.reduce((eeprom, table) => put(eeprom, table).eeprom, BLANK);

const DIRECTIONS = [
  {
    way: 'an empty slot 0, with the table of the flash in force',
    from: BLANK,
    old: tableBytes(BRISK),
    fresh: FIRST,
  },
  { way: 'slot 1, with slot 0 in force', from: after(FIRST), old: FIRST, fresh: SECOND },
  { way: 'slot 0, with slot 1 in force', from: after(FIRST, SECOND), old: SECOND, fresh: THIRD },
] as const;
const WAYS: readonly Way[] = ['erased', 'random', 'whole'];
/** Magic, number, length, 70 bytes of table, checksum, magic; those that stood there already are not written. */
const WRITES_LEAST = 60;

describe.each(DIRECTIONS)('a table put to $way', ({ from, old, fresh }) => {
  const whole = put(from, fresh);
  const known = [crc16(old), crc16(fresh)];

  it('writes at least 60 bytes, and holds after the next power-on', () => {
    expect(whole.acked).toBe(true);
    expect(whole.begun).toBeGreaterThanOrEqual(WRITES_LEAST);
    expect(woken(whole.eeprom).crc).toBe(crc16(fresh));
  });

  it.each(WAYS)(
    'leaves the old table or the new one when power goes at any of its bytes (%s), and was never acknowledged',
    (way) => {
      const wrong: unknown[] = [];
      const seen = new Set<number>();
      for (let cutAt = 0; cutAt < whole.begun; cutAt += 1) {
        const cut = put(from, fresh, cutAt, way, cutAt + 1);
        const { crc } = woken(cut.eeprom);
        seen.add(crc);
        if (cut.acked || cut.begun !== cutAt + 1 || !known.includes(crc))
          wrong.push({ cutAt, acked: cut.acked, begun: cut.begun, crc });
      }
      expect(wrong).toEqual([]);
      // Until the magic stands nothing but the old one may hold.
      expect([...seen]).toContain(crc16(old));
    },
  );
});

describe('two cuts in a row', () => {
  it('leave the old table or the new one in 48 seeded pairs, and the next put holds', () => {
    const dice = seededDice(7);
    const any = (end: number): number => Math.floor(dice() * end);
    const wrong: unknown[] = [];
    for (let pair = 0; pair < 48; pair += 1) {
      const { from, old, fresh } = DIRECTIONS[pair % DIRECTIONS.length]!;
      const first = put(from, fresh, any(WRITES_LEAST), WAYS[any(3)], pair + 1);
      const second = put(first.eeprom, fresh, any(WRITES_LEAST), WAYS[any(3)], pair + 1001);
      const { crc } = woken(second.eeprom);
      const last = put(second.eeprom, fresh);
      const held = woken(last.eeprom).crc;
      const well = [crc16(old), crc16(fresh)].includes(crc) && last.acked && held === crc16(fresh);
      if (!well) wrong.push({ pair, crc, held });
    }
    expect(wrong).toEqual([]);
  });
});
