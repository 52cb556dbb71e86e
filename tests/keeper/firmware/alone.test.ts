import { beforeAll, describe, expect, it } from 'vitest';
import type { KeeperTable } from '../../../src/farm/table-bytes.ts';
import { keptBoard, type KeptBoard } from './kept-board.ts';
import { talkWith } from './talk.ts';

const DAY_SECONDS = 86_400;
const MINUTES_A_DAY = 1440;
/** Night, morning, a hot afternoon, evening. */
const TABLE: KeeperTable = {
  parts: [
    { fromMinute: 5 * 60, restSeconds: 2400, coolRestSeconds: 3600, floodSeconds: 600 },
    { fromMinute: 11 * 60 + 30, restSeconds: 1380, coolRestSeconds: 2400, floodSeconds: 480 },
    { fromMinute: 17 * 60, restSeconds: 2700, coolRestSeconds: 3600, floodSeconds: 540 },
    { fromMinute: 21 * 60 + 15, restSeconds: 9000, coolRestSeconds: 10_800, floodSeconds: 300 },
  ],
  longestRestSeconds: 12_000,
  returnLagSeconds: 480,
};
/** From where the host lets go; so that midnight lies in the day. */
const FROM_MINUTE = 8 * 60;

/** By the page alone: a flood is due when the pump has been off for the rest of the part in which that moment lies. */
interface Span {
  readonly from: number;
  readonly until: number;
}
const spansOf = (first: Span, minuteAt: (second: number) => number, until: number): readonly Span[] => {
  const { parts } = TABLE;
  const partAt = (second: number): (typeof parts)[number] =>
    parts.findLast(({ fromMinute }) => fromMinute <= minuteAt(second)) ?? parts.at(-1)!;
  const spans = [first];
  let off = first.until;
  for (let second = off; second < until; second += 1) {
    const { restSeconds, floodSeconds } = partAt(second);
    if (second - off < restSeconds) continue;
    off = second + floodSeconds;
    spans.push({ from: second, until: off });
    second = off;
  }
  return spans;
};

describe('a board that is left alone for 24 hours with the time of day known', () => {
  let board: KeptBoard;
  let began: number;
  let minuteAt: (second: number) => number;
  beforeAll(() => {
    board = keptBoard({ table: TABLE });
    board.pass(2);
    const talk = talkWith(board);
    const epoch = talk.claim();
    talk.beat(epoch, FROM_MINUTE);
    // The board's seconds since then, by its own count.
    const at = talk.status().uptimeSeconds;
    minuteAt = (second) => (FROM_MINUTE + Math.floor((second - at) / 60)) % MINUTES_A_DAY;
    talk.ask({ kind: 'let-go', epoch });
    began = board.now();
    board.pass(DAY_SECONDS);
  }, 60_000);

  /** Floods in the board's own seconds. */
  const floods = (): readonly Span[] => {
    const { from } = board.ran[0]!;
    // The board looks at its second in the first milliseconds of it, so that all edges lie as far behind it.
    const zero = from - Math.floor(from);
    return board.ran
      .filter(({ until }) => until < Infinity)
      .map((run) => ({ from: run.from - zero, until: run.until - zero }));
  };

  it('floods 26 times, in each of its four parts', () => {
    expect(floods().length).toBe(26);
    const minutes = floods().map(({ from }) => minuteAt(from));
    for (const [place, { fromMinute }] of TABLE.parts.entries()) {
      const end = TABLE.parts[place + 1]?.fromMinute ?? MINUTES_A_DAY;
      expect(minutes.filter((minute) => minute >= fromMinute && minute < end).length).toBeGreaterThan(0);
    }
  });
  it('starts and ends each flood at the second that the table gives, and leaves none out', () => {
    const seen = floods();
    const [first] = seen;
    const wanted = spansOf(
      { from: Math.round(first!.from), until: Math.round(first!.until) },
      minuteAt,
      began + DAY_SECONDS,
    );
    expect(seen.map(({ from, until }) => ({ from: Math.round(from), until: Math.round(until) }))).toEqual(
      wanted.slice(0, seen.length),
    );
    // One may be under way when the day ends.
    expect(wanted.length - seen.length).toBeLessThanOrEqual(1);
  });
  it('meets the second within 5 ms, each time', () => {
    const off = floods()
      .flatMap(({ from, until }) => [from, until])
      .map((at) => Math.abs(at - Math.round(at)));
    expect(Math.max(...off)).toBeLessThan(0.005);
  });
  it('is not reset', () => {
    expect(board.chip.resets()).toEqual({ 'power-on': 1, external: 0, 'brown-out': 0, watchdog: 0 });
    const status = talkWith(board).status();
    expect(status).toMatchObject({ resets: 0, owner: 'keeper', failedTests: [], framesDropped: 0 });
    expect(Math.abs(status.uptimeSeconds - board.now())).toBeLessThan(1);
  });
  it('leaves more than 200 bytes of stack never used', () => {
    expect(talkWith(board).status().roomBytes).toBeGreaterThan(200);
  });
});

describe('a board that is left alone for 24 hours without the time of day', () => {
  it('rests 1380 s after each flood of 480 s, the shortest rest of its table, all through the night', () => {
    const board = keptBoard({ table: TABLE });
    board.pass(DAY_SECONDS);
    const ended = board.ran.filter(({ until }) => until < Infinity);
    const rests = ended.slice(1).map(({ from }, place) => Math.round(from - ended[place]!.until));
    // The first begins 15 s after the power came.
    expect(ended.length).toBe(1 + Math.floor((DAY_SECONDS - 15 - 480) / (1380 + 480)));
    expect(new Set(rests)).toEqual(new Set([1380]));
    expect(new Set(ended.map(({ from, until }) => Math.round(until - from)))).toEqual(new Set([480]));
  });
});
