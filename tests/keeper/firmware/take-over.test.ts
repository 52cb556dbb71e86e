import { beforeAll, describe, expect, it } from 'vitest';
import { seededDice } from '../../../sim/dice.ts';
import { BRISK, keptBoard, type KeptBoard } from './kept-board.ts';
import { talkWith, type Talk } from './talk.ts';

/** A flood of four minutes every half hour. */
const TABLE = {
  ...BRISK,
  parts: [{ fromMinute: 0, restSeconds: 1800, coolRestSeconds: 1800, floodSeconds: 240 }],
  longestRestSeconds: 3600,
} as const;
const LEASE_SECONDS = 10;
const FLOOD_SECONDS = TABLE.parts[0].floodSeconds;
const PHASES = 100;

interface Hosted {
  readonly board: KeptBoard;
  readonly talk: Talk;
  readonly epoch: number;
}
/** A host owns the pump, which has been off long enough to start; `phase` of a second later than another. */
const hosted = (phase: number): Hosted => {
  const board = keptBoard({ table: TABLE });
  board.pass(12 + phase);
  const talk = talkWith(board);
  return { board, talk, epoch: talk.claim() };
};
const keepAlive = ({ board, talk, epoch }: Hosted, seconds: number): void => {
  for (let second = 0; second < seconds; second += 1) {
    talk.beat(epoch);
    board.pass(1);
  }
};
const flood = ({ talk, epoch }: Hosted, longestSeconds: number): void => {
  expect(talk.ask({ kind: 'pump', epoch, on: true, longestSeconds })).toMatchObject({ result: 'done' });
};
/** The host falls silent for so long; its last heartbeat was just now. */
const silent = ({ board, talk, epoch }: Hosted, seconds: number): void => {
  talk.beat(epoch);
  board.pass(seconds);
};
const ran = ({ board }: Hosted, place: number): number => board.ran[place]!.until - board.ran[place]!.from;

describe('a host that falls silent', () => {
  /** By phase: seconds from the last heartbeat to the last status with the host as owner, and the first with the keeper. */
  const changes: { readonly lastHost: number; readonly firstKeeper: number }[] = [];
  beforeAll(() => {
    const dice = seededDice(41);
    for (let phase = 0; phase < PHASES; phase += 1) {
      const host = hosted(dice());
      const { board, talk } = host;
      // The lease runs from when the heartbeat was heard, which lies before its answer is.
      board.pass(dice());
      talk.beat(host.epoch);
      const beatenAt = board.now();
      board.pass(LEASE_SECONDS - 1.2);
      let lastHost = NaN;
      let firstKeeper = NaN;
      while (Number.isNaN(firstKeeper) && board.now() - beatenAt < LEASE_SECONDS + 2) {
        const askedAt = board.now();
        const { owner } = talk.status();
        if (owner === 'host') lastHost = askedAt - beatenAt;
        else firstKeeper = board.now() - beatenAt;
      }
      changes.push({ lastHost, firstKeeper });
    }
  }, 60_000);

  it('owns the pump for at most 10 s more, at each of 100 seeded phases', () => {
    expect(changes.length).toBe(PHASES);
    expect(Math.max(...changes.map(({ lastHost }) => lastHost))).toBeLessThanOrEqual(LEASE_SECONDS);
  });
  it('is told of the keeper as owner within 10.05 s', () => {
    // A question and its answer take 0.03 s of the line.
    expect(Math.max(...changes.map(({ firstKeeper }) => firstKeeper))).toBeLessThan(LEASE_SECONDS + 0.05);
  });
  it('keeps the pump for 8.9 s at least', () => {
    // The board counts whole seconds of its own: up to one of the ten has passed already.
    expect(Math.min(...changes.map(({ firstKeeper }) => firstKeeper))).toBeGreaterThan(LEASE_SECONDS - 1.1);
  });
});

describe('a flood that runs while the pump changes hands', () => {
  it.each([5, 60, 180])("of a host that dies %i s after its start ends at the table's 240 s", (after) => {
    const host = hosted(0.3);
    flood(host, 600);
    keepAlive(host, after);
    silent(host, 400);
    expect(host.board.ran.length).toBe(1);
    expect(ran(host, 0)).toBeGreaterThan(FLOOD_SECONDS - 1);
    expect(ran(host, 0)).toBeLessThanOrEqual(FLOOD_SECONDS + 0.01);
  });
  it("ends at the host's 90 s where those come before the table's", () => {
    const host = hosted(0.3);
    flood(host, 90);
    keepAlive(host, 5);
    silent(host, 400);
    expect(ran(host, 0)).toBeGreaterThan(89);
    expect(ran(host, 0)).toBeLessThanOrEqual(90.01);
  });
  it('ends with the lease when it has run longer than the table has it', () => {
    const host = hosted(0.3);
    flood(host, 600);
    keepAlive(host, 300);
    const diedAt = host.board.now();
    silent(host, 100);
    const { until } = host.board.ran[0]!;
    expect(until - diedAt).toBeGreaterThan(LEASE_SECONDS - 1.1);
    expect(until - diedAt).toBeLessThan(LEASE_SECONDS + 0.1);
  });
  it('of the keeper goes on under a host that claims it, to its 240 s', () => {
    const board = keptBoard({ table: TABLE });
    board.pass(60);
    const talk = talkWith(board);
    const host = { board, talk, epoch: talk.claim() };
    keepAlive(host, 300);
    expect(board.ran.length).toBe(1);
    expect(Math.round(ran(host, 0))).toBe(FLOOD_SECONDS);
  });
  it('is followed by the next one the table has: 1800 s after its end', () => {
    const host = hosted(0.3);
    flood(host, 600);
    keepAlive(host, 5);
    silent(host, 3000);
    const [first, second] = host.board.ran;
    expect(Math.round(second!.from - first!.until)).toBe(1800);
  });
});

describe('a host that lets go', () => {
  it('has handed over when its word is answered, a fifth of a second later at most', () => {
    const dice = seededDice(42);
    for (let phase = 0; phase < 20; phase += 1) {
      const host = hosted(dice());
      const { board, talk, epoch } = host;
      const saidAt = board.now();
      expect(talk.ask({ kind: 'let-go', epoch })).toMatchObject({ result: 'done', value: epoch + 1 });
      expect(talk.status().owner).toBe('keeper');
      expect(board.now() - saidAt).toBeLessThan(0.2);
    }
  });
  it("leaves a flood that runs to the table's 240 s", () => {
    const host = hosted(0.3);
    flood(host, 600);
    host.talk.ask({ kind: 'let-go', epoch: host.epoch });
    host.board.pass(400);
    expect(ran(host, 0)).toBeGreaterThan(FLOOD_SECONDS - 1);
    expect(ran(host, 0)).toBeLessThanOrEqual(FLOOD_SECONDS + 0.01);
  });
  it('may not order with the epoch that it gave away', () => {
    const host = hosted(0.3);
    const { talk, epoch } = host;
    talk.ask({ kind: 'let-go', epoch });
    expect(talk.ask({ kind: 'pump', epoch, on: true, longestSeconds: 60 })).toMatchObject({
      result: 'stale',
    });
    host.board.pass(1);
    expect(host.board.ran).toEqual([]);
  });
});
