/** The keeper table, byte by byte, with its ranges: docs/board-protocol.md, "Table". */

/** One stretch of the day; it lasts until the next begins, the last one until the first. Seconds. */
export interface KeeperPart {
  readonly fromMinute: number;
  readonly restSeconds: number;
  /** Where the board's own thermistor says that it is cool. */
  readonly coolRestSeconds: number;
  readonly floodSeconds: number;
}

export interface KeeperTable {
  /** In the order of the day, the first one that begins after midnight first. */
  readonly parts: readonly KeeperPart[];
  /** A host that owns the pump and rests longer loses it to the keeper. */
  readonly longestRestSeconds: number;
  /** From the start of a flood until water should be back. */
  readonly returnLagSeconds: number;
}

export const PARTS_MAX = 8;
/** Of the longest table. */
export const TABLE_BYTES_MAX = 6 + 8 * PARTS_MAX;

const SCHEMA = 1;
const HEAD_BYTES = 6;
const PART_BYTES = 8;
const MINUTES_PER_DAY = 1440;
export const TABLE_RANGES = {
  rest: { least: 180, most: 21_600 },
  flood: { least: 30, most: 3600 },
  longestRestMost: 43_200,
  returnLag: { least: 60, most: 1800 },
} as const;

const within = (value: number, { least, most }: { readonly least: number; readonly most: number }): boolean =>
  Number.isInteger(value) && value >= least && value <= most;

const partProblem = (
  { fromMinute, restSeconds, coolRestSeconds, floodSeconds }: KeeperPart,
  before: KeeperPart | undefined,
  longestOnSeconds: number,
): string | null => {
  const { rest, flood } = TABLE_RANGES;
  const first = before === undefined ? 0 : before.fromMinute + 1;
  const most = Math.min(flood.most, longestOnSeconds);
  if (!within(fromMinute, { least: first, most: MINUTES_PER_DAY - 1 }))
    return `a part begins at minute ${fromMinute}; allowed is ${first} to ${MINUTES_PER_DAY - 1}`;
  if (!within(restSeconds, rest))
    return `a rest of ${restSeconds} s; allowed is ${rest.least} to ${rest.most} s`;
  if (!within(coolRestSeconds, { least: restSeconds, most: rest.most }))
    return `a rest in the cool of ${coolRestSeconds} s; allowed is ${restSeconds} to ${rest.most} s`;
  return within(floodSeconds, { least: flood.least, most })
    ? null
    : `a flood of ${floodSeconds} s; allowed is ${flood.least} to ${most} s`;
};

/** What a board would refuse in a table, or null; longest-on is that of its setup. */
export const tableProblem = (
  { parts, longestRestSeconds, returnLagSeconds }: KeeperTable,
  longestOnSeconds: number,
): string | null => {
  if (!within(parts.length, { least: 1, most: PARTS_MAX }))
    return `${parts.length} parts; allowed are 1 to ${PARTS_MAX}`;
  for (const [place, part] of parts.entries()) {
    const problem = partProblem(part, parts[place - 1], longestOnSeconds);
    if (problem !== null) return problem;
  }
  const { returnLag, longestRestMost } = TABLE_RANGES;
  const least = Math.max(...parts.map(({ coolRestSeconds }) => coolRestSeconds));
  if (!within(longestRestSeconds, { least, most: longestRestMost }))
    return `a longest rest of ${longestRestSeconds} s; allowed is ${least} to ${longestRestMost} s`;
  return within(returnLagSeconds, returnLag)
    ? null
    : `a return lag of ${returnLagSeconds} s; allowed is ${returnLag.least} to ${returnLag.most} s`;
};

/** 6 bytes and 8 for each part. Trusts that `tableProblem` found none. */
export const tableBytes = ({ parts, longestRestSeconds, returnLagSeconds }: KeeperTable): Uint8Array => {
  const bytes = new Uint8Array(HEAD_BYTES + PART_BYTES * parts.length);
  const view = new DataView(bytes.buffer);
  bytes[0] = SCHEMA;
  bytes[1] = parts.length;
  view.setUint16(2, longestRestSeconds, true);
  view.setUint16(4, returnLagSeconds, true);
  parts.forEach(({ fromMinute, restSeconds, coolRestSeconds, floodSeconds }, place) => {
    [fromMinute, restSeconds, coolRestSeconds, floodSeconds].forEach((value, word) => {
      view.setUint16(HEAD_BYTES + PART_BYTES * place + 2 * word, value, true);
    });
  });
  return bytes;
};

export type ReadTable =
  | { readonly kind: 'table'; readonly table: KeeperTable }
  | { readonly kind: 'unreadable'; readonly why: string };

/**
 * The table in bytes, held against every range of the page. A board also holds its floods to the longest-on of its
 * setup; without that the widest of any farm counts.
 */
export const readTable = (
  bytes: Uint8Array,
  longestOnSeconds: number = TABLE_RANGES.flood.most,
): ReadTable => {
  const unreadable = (why: string): ReadTable => ({ kind: 'unreadable', why });
  const [schema, count = 0] = bytes;
  if (schema !== SCHEMA) return unreadable(`schema ${schema ?? 'missing'}; this program knows ${SCHEMA}`);
  if (!within(count, { least: 1, most: PARTS_MAX }))
    return unreadable(`${count} parts; allowed are 1 to ${PARTS_MAX}`);
  const length = HEAD_BYTES + PART_BYTES * count;
  if (bytes.length !== length) return unreadable(`${bytes.length} bytes; ${count} parts take ${length}`);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const word = (at: number): number => view.getUint16(at, true);
  const table: KeeperTable = {
    parts: Array.from({ length: count }, (_, place) => {
      const at = HEAD_BYTES + PART_BYTES * place;
      return {
        fromMinute: word(at),
        restSeconds: word(at + 2),
        coolRestSeconds: word(at + 4),
        floodSeconds: word(at + 6),
      };
    }),
    longestRestSeconds: word(2),
    returnLagSeconds: word(4),
  };
  const problem = tableProblem(table, longestOnSeconds);
  return problem === null ? { kind: 'table', table } : unreadable(problem);
};
