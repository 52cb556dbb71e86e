import { describe, expect, it } from 'vitest';
import { run } from '../../../firmware-host/run-loop.ts';
import type { Entry } from '../../../src/journal/entry.ts';
import type { Board, BoardCommand, Kept, Link, TimeOfDay } from '../../../src/ports/board.ts';
import { monotonicMillis, wallMillis, type WallMillis } from '../../../src/time/instant.ts';
import { exampleFarm } from '../../support/farm.ts';
import { utc } from '../../support/moments.ts';
import { NOTHING_KEPT } from '../verify/kept.ts';

const NOON = utc('2026-07-14T11:00:00Z');
const MINUTE = 60;

interface Asked {
  readonly seconds: number;
  /** The link by the second. */
  readonly link: (second: number) => Link;
  readonly wall?: (second: number) => WallMillis | 'unknown';
  /** The second at which the journal fails. */
  readonly failsAt?: number;
}
interface Ran {
  readonly commands: readonly (readonly [second: number, command: BoardCommand['kind']])[];
  /** What the board heard of the host's life, with the entries and commands that came before it in that second. */
  readonly alive: readonly (readonly [second: number, time: TimeOfDay | 'unknown'])[];
  readonly believed: readonly (WallMillis | 'unknown')[];
  readonly entries: readonly Entry[];
  readonly failed: string | null;
}

const ran = async ({ seconds, link, wall, failsAt = Infinity }: Asked): Promise<Ran> => {
  let second = 0;
  const commands: (readonly [number, BoardCommand['kind']])[] = [];
  const alive: (readonly [number, TimeOfDay | 'unknown'])[] = [];
  const believed: (WallMillis | 'unknown')[] = [];
  const entries: Entry[] = [];
  const links = new Map<number, Link>();
  const board: Board = {
    command: ({ kind }) => commands.push([second, kind]),
    samples: () => [],
    link: () => {
      const known = links.get(second) ?? link(second);
      links.set(second, known);
      return known;
    },
    presses: () => [],
    show: () => undefined,
    alive: (time) => alive.push([second, time]),
  };
  let failed: string | null = null;
  const nowWall = (): WallMillis | 'unknown' =>
    wall === undefined ? wallMillis(NOON + second * 1000) : wall(second);
  try {
    await run({
      farm: exampleFarm,
      board,
      clock: {
        now: () => ({ monotonic: monotonicMillis(second * 1000), wall: nowWall() }),
        until: (moment) => {
          second = Math.max(second, Math.round(moment / 1000));
          return Promise.resolve();
        },
      },
      journal: {
        append: (more) => {
          if (second >= failsAt) throw new Error('the disk is full of holes');
          entries.push(...more);
        },
      },
      until: monotonicMillis(seconds * 1000),
      stop: new AbortController().signal,
      believes: (at) => believed.push(at),
    });
  } catch (error) {
    failed = error instanceof Error ? error.message : 'unknown';
  }
  return { commands, alive, believed, entries, failed };
};

const KEPT: Link = { kind: 'up', kept: NOTHING_KEPT };
const STOCK: Link = { kind: 'up' };
const AWAY: Link = { kind: 'down', why: 'unplugged', keeper: 'keeps' };

describe('the word that the host lives', () => {
  it('comes once for each whole look, with the time of day in Lisbon', async () => {
    const { alive } = await ran({ seconds: 3, link: () => KEPT });
    expect(alive).toEqual([
      [0, { minute: 720, second: 0 }],
      [1, { minute: 720, second: 1 }],
      [2, { minute: 720, second: 2 }],
      [3, { minute: 720, second: 3 }],
    ]);
  });

  it('does not come for a look that fails half way, nor after it', async () => {
    const { alive, failed } = await ran({ seconds: 100, link: () => KEPT, failsAt: 30 });
    expect(failed).toBe('the disk is full of holes');
    expect(alive.at(-1)?.[0]).toBe(29);
    expect(alive).toHaveLength(30);
  });

  it.each([
    ['has no clock', (): 'unknown' => 'unknown', 0],
    ['wakes in 1970', (second: number): WallMillis => wallMillis(second * 1000), 0],
    [
      'has a clock that jumped 3 h at 20 min',
      (second: number): WallMillis =>
        wallMillis(NOON + second * 1000 + (second >= 20 * MINUTE ? 3 * 3_600_000 : 0)),
      20 * MINUTE,
    ],
  ])('says that the time is unknown where the host %s', async (_, wall, from) => {
    const { alive } = await ran({ seconds: 20 * MINUTE + 5, link: () => KEPT, wall });
    const known = alive.filter(([, time]) => time !== 'unknown');
    expect(known.length).toBe(from);
    expect(known.every(([second]) => second < from)).toBe(true);
  });
});

describe('a clock that jumps by two and a half years after 20 min', () => {
  it('is believed at each tick before, and never after: the date of the board’s table is not its date', async () => {
    const years = utc('2029-01-14T12:00:00Z') - NOON;
    const wall = (second: number): WallMillis =>
      wallMillis(NOON + second * 1000 + (second >= 20 * MINUTE ? years : 0));
    const { believed } = await ran({ seconds: 25 * MINUTE, link: () => KEPT, wall });
    expect(believed.slice(0, 20 * MINUTE)).toEqual(
      Array.from({ length: 20 * MINUTE }, (_, second) => NOON + second * 1000),
    );
    expect(believed).toHaveLength(25 * MINUTE + 1);
    expect(new Set(believed.slice(20 * MINUTE))).toEqual(new Set(['unknown']));
  });
});

describe('a run that ends', () => {
  const last = (entries: readonly Entry[], count: number): readonly Entry[] => entries.slice(-count);

  it('in a flood leaves it to a board that keeps the plants: no word to the pump, and a verdict that is true', async () => {
    const { commands, entries } = await ran({ seconds: 5 * MINUTE, link: () => KEPT });
    expect(commands).toEqual([[30, 'pump-on']]);
    expect(last(entries, 2)).toMatchObject([
      {
        kind: 'verdict',
        flood: 1,
        verdict: { kind: 'unproven', says: 'the run ended, and the board goes on with it' },
      },
      { kind: 'left-to-board' },
    ]);
  });

  it('in a flood stops the pump of a stock board, and says so', async () => {
    const { commands, entries } = await ran({ seconds: 5 * MINUTE, link: () => STOCK });
    expect(commands.at(-1)).toEqual([5 * MINUTE, 'pump-off']);
    expect(last(entries, 2)).toMatchObject([
      { kind: 'verdict', verdict: { kind: 'withheld', says: 'stopped after 5 of 20 min: the run ended' } },
      { kind: 'pump-asked', pump: 'off' },
    ]);
  });

  it('by a defect says nothing to a board that keeps, and off to a stock board', async () => {
    const kept = await ran({ seconds: 100, link: () => KEPT, failsAt: 60 });
    const stock = await ran({ seconds: 100, link: () => STOCK, failsAt: 60 });
    expect(kept.commands.map(([, kind]) => kind)).not.toContain('pump-off');
    expect(stock.commands.at(-1)?.[1]).toBe('pump-off');
  });

  it('while a board that keeps is not heard promises nothing of it', async () => {
    const { commands, entries } = await ran({
      seconds: 5 * MINUTE,
      link: (second) => (second < 3 * MINUTE ? KEPT : AWAY),
    });
    expect(commands).toEqual([[30, 'pump-on']]);
    expect(last(entries, 1)).toMatchObject([{ kind: 'verdict', verdict: { kind: 'unproven' } }]);
  });
});

describe('a board that changed hands and back while it was heard', () => {
  it('is listened to again: what it gave by itself is in the journal, once', async () => {
    const own: Kept = {
      ...NOTHING_KEPT,
      runs: [
        {
          startedAt: monotonicMillis(40 * MINUTE * 1000),
          seconds: 1200,
          begunBy: 'board',
          endedBy: 'board',
          verdict: 'confirmed',
        },
      ],
    };
    const news: Link = { kind: 'up', kept: own };
    const { entries } = await ran({
      seconds: 70 * MINUTE,
      link: (second) => (second < 65 * MINUTE ? KEPT : news),
    });
    expect(entries.filter(({ kind }) => kind === 'kept-run')).toMatchObject([{ at: 65 * MINUTE * 1000 }]);
  });
});
