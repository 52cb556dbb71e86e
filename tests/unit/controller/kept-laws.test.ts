import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { begin, step, type ControllerState, type Event, type Step } from '../../../src/controller.ts';
import { holdCommand } from '../../../src/command/hold-command.ts';
import type { Kept, KeptRun, Link } from '../../../src/ports/board.ts';
import { monotonicMillis, wallMillis, type Now } from '../../../src/time/instant.ts';
import { farmWith } from '../../support/farm.ts';
import { frozen } from './replayed.ts';

const FARM = farmWith([['evidence'], { returnFlow: 'switch', tankFloat: true }]);
const LONGEST_ON = FARM.pump.longestOnMinutes * 60;
const START = 1_000_000_000;
const NOON = Date.UTC(2026, 6, 14, 11);

type Ago = number;
/** What a board may tell, with moments as seconds before now: mostly what can be, sometimes what cannot. */
interface KeptAgo {
  readonly runs: readonly (Omit<KeptRun, 'startedAt'> & { readonly ago: Ago })[];
  readonly forgotten: number;
  readonly running: { readonly ago: Ago; readonly left: number } | null;
  readonly lastFlood: { readonly ago: Ago; readonly seconds: number } | null;
  readonly holdLeft: number | null;
}
const ago = fc.oneof(
  { weight: 8, arbitrary: fc.integer({ min: 0, max: 4 * 3600 }) },
  { weight: 1, arbitrary: fc.integer({ min: -70_000, max: 4_000_000 }) },
);
const span = fc.oneof(fc.integer({ min: 0, max: 2400 }), fc.integer({ min: 0, max: 65_535 }));
const run = fc.record({
  ago,
  seconds: span,
  begunBy: fc.constantFrom('board' as const, 'host' as const),
  endedBy: fc.constantFrom('board' as const, 'host' as const),
  verdict: fc.constantFrom<KeptRun['verdict'][]>(
    'confirmed',
    'unproven',
    'missed',
    'sip',
    'cut-short',
    'judged-by-host',
  ),
});
const keptAgo: fc.Arbitrary<KeptAgo> = fc.record({
  runs: fc.array(run, { maxLength: 5 }),
  forgotten: fc.nat({ max: 3 }),
  running: fc.option(fc.record({ ago, left: span })),
  lastFlood: fc.option(fc.record({ ago, seconds: span })),
  holdLeft: fc.option(span, { freq: 4 }),
});

type Next = { readonly gap: number } & (
  | { readonly kind: 'up'; readonly kept: KeptAgo | null }
  | { readonly kind: 'down'; readonly keeper: 'keeps' | 'none' }
  | { readonly kind: 'look'; readonly flowing: boolean }
  | { readonly kind: 'hold' | 'release' | 'flood-now' }
);
const gap = fc.oneof(
  { weight: 3, arbitrary: fc.integer({ min: 1, max: 60 }) },
  { weight: 2, arbitrary: fc.integer({ min: 60, max: 3600 }) },
  { weight: 1, arbitrary: fc.integer({ min: 3600, max: 40_000 }) },
);
const next: fc.Arbitrary<Next> = fc.oneof(
  fc.record({
    kind: fc.constant('up' as const),
    gap,
    kept: fc.option(keptAgo, { freq: 6 }),
  }),
  fc.record({
    kind: fc.constant('down' as const),
    gap,
    keeper: fc.constantFrom('keeps' as const, 'keeps' as const, 'none' as const),
  }),
  fc.record({ kind: fc.constant('look' as const), gap, flowing: fc.boolean() }),
  fc.record({ kind: fc.constantFrom('hold' as const, 'release' as const, 'flood-now' as const), gap }),
);

interface Played {
  readonly now: Now;
  readonly event: Event;
  readonly step: Step;
}

const played = (first: KeptAgo | null, all: readonly Next[]): readonly Played[] => {
  let at = START;
  const steps: Played[] = [];
  const moment = (secondsAgo: number): ReturnType<typeof monotonicMillis> =>
    monotonicMillis(at - secondsAgo * 1000);
  const now = (): Now => ({ monotonic: moment(0), wall: wallMillis(NOON + at - START) });
  const kept = (told: KeptAgo): Kept => ({
    runs: told.runs.map(({ ago: since, ...rest }) => ({ ...rest, startedAt: moment(since) })),
    forgotten: told.forgotten,
    running:
      told.running === null
        ? null
        : { startedAt: moment(told.running.ago), until: moment(-told.running.left) },
    lastFlood:
      told.lastFlood === null
        ? null
        : { startedAt: moment(told.lastFlood.ago), seconds: told.lastFlood.seconds },
    holdUntil: told.holdLeft === null ? null : moment(-told.holdLeft),
  });
  const up = (told: KeptAgo | null): Link =>
    told === null ? { kind: 'up' } : { kind: 'up', kept: kept(told) };
  let state: ControllerState = frozen(begin(FARM, now(), frozen(up(first))));
  const take = (event: Event): void => {
    const done = step(FARM, state, frozen(event), now());
    steps.push({ now: now(), event, step: done });
    state = frozen(done.state);
  };
  for (const one of all) {
    at += one.gap * 1000;
    switch (one.kind) {
      case 'up':
        take({ kind: 'link', link: up(one.kept) });
        break;
      case 'down':
        take({
          kind: 'link',
          link: { kind: 'down', why: 'gone', ...(one.keeper === 'keeps' ? { keeper: 'keeps' } : {}) },
        });
        break;
      case 'look':
        take({
          kind: 'samples',
          samples: [{ at: moment(0), channel: 'return-switch', flowing: one.flowing }],
        });
        break;
      case 'hold':
        take({ kind: 'hold', minutes: 30, who: 'Ana' });
        break;
      case 'release':
      case 'flood-now':
        take({ kind: one.kind, who: 'Ana' });
    }
  }
  // Nobody is heard for two hours: every flood must have its verdict by then.
  for (let quiet = 0; quiet < 120; quiet += 1) {
    at += 60_000;
    take({ kind: 'time' });
  }
  return steps;
};

const holds = (law: (steps: readonly Played[]) => void): void => {
  fc.assert(
    fc.property(fc.option(keptAgo), fc.array(next, { minLength: 5, maxLength: 30 }), (first, all) => {
      law(played(first, all));
    }),
    { numRuns: 60 },
  );
};

describe('a board that goes and comes, whatever it tells of the time between', () => {
  it('is asked nothing while it is gone', () => {
    holds((steps) => {
      for (const { step: done } of steps) {
        if (done.state.link.kind === 'down') expect(done.commands).toEqual([]);
      }
    });
  });

  it('has each flood judged exactly once, the last within 2 h', () => {
    holds((steps) => {
      const entries = steps.flatMap(({ step: { entries: told } }) => told);
      const started = entries.flatMap((entry) => (entry.kind === 'flood-started' ? [entry.flood] : []));
      const judged = entries.flatMap((entry) => (entry.kind === 'verdict' ? [entry.flood] : []));
      expect(new Set(judged).size).toBe(judged.length);
      expect(new Set(started).size).toBe(started.length);
      const open = steps.at(-1)!.step.state.flood?.id;
      expect(started.filter((flood) => !judged.includes(flood) && flood !== open)).toEqual([]);
      if (steps.at(-1)!.step.state.link.kind === 'down') expect(open).toBeUndefined();
    });
  });

  it('is never asked on for longer than its longest-on, nor while it is held', () => {
    holds((steps) => {
      for (const { step: done } of steps) {
        for (const command of done.commands) {
          if (command.kind !== 'pump-on') continue;
          expect(command.longest).toBeGreaterThan(0);
          expect(command.longest).toBeLessThanOrEqual(LONGEST_ON);
          expect(done.state.orders.hold).toBeNull();
        }
      }
    });
  });

  it('hears of a hold in the step in which it is ordered, and of one that it does not have when it is back', () => {
    holds((steps) => {
      for (const { event, step: done, now } of steps) {
        const { link, orders } = done.state;
        if (link.kind === 'down' || link.kept === undefined) continue;
        if (event.kind === 'hold') {
          // Of two the longer one counts.
          const longest = ((orders.hold?.until ?? 0) - now.monotonic) / 1000;
          expect(longest).toBeGreaterThanOrEqual(1800);
          expect(done.commands[0]).toEqual({ kind: 'hold', longest });
        }
        // That of somebody else stands on.
        if (event.kind === 'release') expect(done.commands[0]).toEqual(holdCommand(orders, now.monotonic));
        if (event.kind !== 'link' || orders.hold === null || orders.hold.who === 'the board') continue;
        const theirs = (link.kept.holdUntil ?? now.monotonic) - now.monotonic;
        const ours = orders.hold.until - now.monotonic;
        // The second step of a link that did not change tells nothing new.
        const changed = done.entries.some(({ kind }) => kind === 'link-found');
        if (changed && ours - theirs > 5000) {
          expect(done.commands[0]).toEqual({ kind: 'hold', longest: ours / 1000 });
        }
      }
    });
  });

  it('puts no flood off for longer than the longest rest of 75 min by day, and 4 h of hold', () => {
    holds((steps) => {
      for (const { step: done, now } of steps) {
        if (done.nextFloodAt === null) continue;
        expect(done.nextFloodAt - now.monotonic).toBeLessThanOrEqual((210 + 20) * 60_000);
        expect(done.state.schedule.lastEnd ?? now.monotonic).toBeLessThanOrEqual(now.monotonic + 5000);
      }
    });
  });

  it('leaves shares of held water between 0 and 1, the dry edge never above the likely value', () => {
    holds((steps) => {
      for (const { step: done } of steps) {
        for (const { theta, thetaLow } of done.state.belief.benches) {
          expect(theta).toBeLessThanOrEqual(1);
          expect(thetaLow).toBeGreaterThanOrEqual(0);
          expect(thetaLow).toBeLessThanOrEqual(theta + 1e-12);
        }
      }
    });
  });
});
