import {
  readTable,
  tableBytes,
  type KeeperPart,
  type KeeperTable,
  type ReadTable,
} from '../../src/farm/table-bytes.ts';
import type { Dialogue } from '../devices/keeper/dialogue.ts';
import { EXIT } from './exit-code.ts';
import { claimed, ordered } from './keeper-dialogue.ts';
import { Refusal } from './refusal.ts';

/** The table in force on a board. */
export interface BoardTable {
  readonly slot: number;
  readonly seq: number;
  readonly bytes: Uint8Array;
  readonly read: ReadTable;
}

const FLASH_SLOT = 2;

export const tableOnBoard = async ({ ask }: Dialogue, longestOnSeconds: number): Promise<BoardTable> => {
  const answer = await ask({ kind: 'table-get' });
  if (answer.kind !== 'table') throw new Refusal('The board does not tell its table.', EXIT.noBoard);
  const { slot, seq, table: bytes } = answer;
  return { slot, seq, bytes, read: readTable(bytes, longestOnSeconds) };
};

/** Where the table in force lies, in words. */
export const slotWords = ({ slot, seq }: Pick<BoardTable, 'slot' | 'seq'>): string =>
  slot === FLASH_SLOT ? 'the table that it was flashed with' : `table number ${seq}, in slot ${slot}`;

const same = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((byte, at) => byte === b[at]);

export const isSameTable = ({ bytes }: BoardTable, table: KeeperTable): boolean =>
  same(bytes, tableBytes(table));

const PUT_WORDS: Readonly<Record<string, string>> = {
  'bad-value': 'it refuses a value of it; flash the board with this program',
  'not-stored': 'it could not verify it after writing: its memory may be worn out; take another board',
  'not-set-up': 'it is not set up; flash it',
};

/**
 * Puts a table into the board and reads it back. The board floods meanwhile as it did; a flood under way goes on.
 * @throws Refusal when it is not in force afterwards
 */
export const putTable = async (
  dialogue: Dialogue,
  table: KeeperTable,
  longestOnSeconds: number,
): Promise<BoardTable> => {
  const epoch = await claimed(dialogue);
  const result = await ordered(dialogue, { kind: 'table-put', epoch, table: tableBytes(table) }).finally(() =>
    ordered(dialogue, { kind: 'let-go', epoch }),
  );
  const found = await tableOnBoard(dialogue, longestOnSeconds);
  if (result === 'done' && isSameTable(found, table)) return found;
  const why = result === 'done' ? 'it does not show it afterwards' : (PUT_WORDS[result] ?? result);
  throw new Refusal(`The board keeps ${slotWords(found)}, and not the new one: ${why}.`, EXIT.notWell);
};

const clock = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
const minutes = (seconds: number): string =>
  seconds % 60 === 0 ? `${seconds / 60} min` : `${(seconds / 60).toFixed(1)} min`;

const partWords = ({ restSeconds, coolRestSeconds, floodSeconds }: KeeperPart): string => {
  const cool = coolRestSeconds === restSeconds ? '' : ` (${minutes(coolRestSeconds)} in the cool)`;
  return `rest ${minutes(restSeconds)}${cool}, flood ${minutes(floodSeconds)}`;
};

const partAt = ({ parts }: KeeperTable, minute: number): KeeperPart | undefined =>
  parts.findLast(({ fromMinute }) => fromMinute <= minute) ?? parts.at(-1);

/** One stretch of the day in which neither table changes. */
export interface TableRow {
  readonly from: string;
  readonly plan: string;
  readonly board: string;
  readonly same: boolean;
}

/** Both tables side by side, from one change of either to the next. */
export const tableRows = (plan: KeeperTable, board: KeeperTable): readonly TableRow[] => {
  const froms = new Set([...plan.parts, ...board.parts].map(({ fromMinute }) => fromMinute));
  return [...froms]
    .sort((a, b) => a - b)
    .map((minute) => {
      const [planned, kept] = [plan, board].map((table) => {
        const part = partAt(table, minute);
        return part === undefined ? '' : partWords(part);
      });
      return { from: clock(minute), plan: planned ?? '', board: kept ?? '', same: planned === kept };
    });
};

/** Of a table alone. */
export const tableLines = (table: KeeperTable): readonly string[] =>
  table.parts.map((part) => `  from ${clock(part.fromMinute)}  ${partWords(part)}`);
