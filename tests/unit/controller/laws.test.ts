import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { step } from '../../../src/controller.ts';
import { HOLD_MINUTES_MAX } from '../../../src/command/orders.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { farmWith } from '../../support/farm.ts';
import { happenings } from './happenings.ts';
import { frozen, played, type Played } from './replayed.ts';

/** As long as the plan's floods, so that any minute more would show. */
const LONGEST_ON = 20;
/** Far longer than a motor needs, so that an order comes within it now and then. */
const SHORTEST_OFF = 300;
const farmOf = (evidence: object): Farm =>
  farmWith(
    [['evidence'], evidence],
    [['pump', 'longestOnMinutes'], LONGEST_ON],
    [['pump', 'shortestOffSeconds'], SHORTEST_OFF],
    [['bounds', 'floodMinutes', 'longest'], LONGEST_ON],
  );

/** Farms with everything fitted, with little, and with nothing: the laws hold for all. */
const FARMS = {
  'everything fitted': farmOf({
    returnFlow: 'meter',
    pumpCurrent: true,
    relayReadBack: true,
    tankLevel: true,
    tankFloat: true,
    leakSensor: true,
    overflowFloat: true,
  }),
  'a return switch and a float': farmOf({ returnFlow: 'switch', tankFloat: true }),
  'nothing fitted': farmOf({ returnFlow: 'none' }),
};
type Fitted = keyof typeof FARMS;
Object.values(FARMS).forEach(frozen);

const holds = (fitted: Fitted, law: (steps: readonly Played[]) => void, numRuns = 10): void => {
  fc.assert(
    fc.property(happenings, (all) => {
      law(played(FARMS[fitted], all));
    }),
    { numRuns },
  );
};

/** What a board that obeys does: on until asked off, or until the longest that was asked is over. */
const boardOf = (
  steps: readonly Played[],
): readonly { readonly on: number; readonly off: number; readonly asked: number }[] => {
  const runs: { on: number; off: number; asked: number }[] = [];
  for (const { now, step: next } of steps) {
    for (const command of next.commands) {
      const last = runs.at(-1);
      if (command.kind === 'pump-on') {
        const asked = command.longest * 1000;
        runs.push({ on: now.monotonic, off: now.monotonic + asked, asked });
      } else if (last !== undefined) last.off = Math.min(last.off, now.monotonic);
    }
  }
  return runs;
};

describe.each(Object.keys(FARMS) as Fitted[])('the controller, %s, whatever happens to it', (fitted) => {
  it('asks the pump on for at most 20 min, only while it is off, and never within 300 s of its stop', () => {
    holds(fitted, (steps) => {
      const runs = boardOf(steps);
      for (const [place, run] of runs.entries()) {
        expect(run.asked).toBeGreaterThan(0);
        expect(run.asked).toBeLessThanOrEqual(LONGEST_ON * 60_000);
        const before = runs[place - 1];
        if (before !== undefined) {
          expect(run.on - before.off).toBeGreaterThanOrEqual(SHORTEST_OFF * 1000);
        }
      }
    });
  });

  it('gives every flood exactly one verdict, and no verdict to a flood that was not due', () => {
    holds(fitted, (steps) => {
      const entries = steps.flatMap(({ step: { entries: told } }) => told);
      const started = entries.flatMap((entry) => (entry.kind === 'flood-started' ? [entry.flood] : []));
      const judged = entries.flatMap((entry) => (entry.kind === 'verdict' ? [entry.flood] : []));
      expect(steps.at(-1)!.step.state.flood).toBeNull();
      expect(new Set(judged).size).toBe(judged.length);
      expect(new Set(started).size).toBe(started.length);
      expect(started.filter((flood) => !judged.includes(flood))).toEqual([]);
      const ids = [...new Set([...started, ...judged])].sort((a, b) => a - b);
      expect(ids).toEqual(ids.map((_, place) => place + 1));
    });
  });

  it('stops the pump in the step that hears a hold, and starts nothing before its end', () => {
    holds(fitted, (steps) => {
      let heldUntil = -Infinity;
      for (const { now, event, step: next } of steps) {
        if (event.kind === 'hold') {
          const minutes = Number.isNaN(event.minutes) ? HOLD_MINUTES_MAX : Math.max(0, event.minutes);
          heldUntil = now.monotonic + Math.min(HOLD_MINUTES_MAX, minutes) * 60_000;
          expect(next.state.guard.asked.kind).toBe('off');
        }
        if (event.kind === 'release') heldUntil = -Infinity;
        if (now.monotonic < heldUntil) {
          expect(next.commands.filter((command) => command.kind === 'pump-on')).toEqual([]);
          expect(next.state.guard.asked.kind).toBe('off');
        }
      }
    });
  });

  it('wants to be called again after now and within 5 min', () => {
    holds(fitted, (steps) => {
      for (const { now, step: next } of steps) {
        expect(next.wake).toBeGreaterThan(now.monotonic);
        expect(next.wake).toBeLessThanOrEqual(now.monotonic + 5 * 60_000);
      }
    });
  });

  it('gives the same step for the same state, event and moment, and changes none of them', () => {
    holds(
      fitted,
      (steps) => {
        for (const { now, event, before, step: next } of steps.slice(0, 80)) {
          const again = step(FARMS[fitted], before, event, now);
          expect(again).toEqual({ ...next, left: again.left });
          expect(again.left()).toEqual(next.left());
        }
      },
      5,
    );
  });

  it('believes shares between 0 and 1, with the dry edge never above the likely value', () => {
    holds(fitted, (steps) => {
      for (const { step: next } of steps) {
        for (const { theta, thetaLow } of next.state.belief.benches) {
          expect(theta).toBeLessThanOrEqual(1);
          expect(thetaLow).toBeGreaterThanOrEqual(0);
          expect(thetaLow).toBeLessThanOrEqual(theta + 1e-12);
        }
      }
    });
  });
});

describe('the first step after a start', () => {
  it('asks the pump off, whatever it was asked before the start, and a flood not before 300 s have gone', () => {
    holds('everything fitted', (steps) => {
      expect(steps[0]!.step.commands[0]).toEqual({ kind: 'pump-off' });
      const [first] = boardOf(steps);
      if (first !== undefined)
        expect(first.on - steps[0]!.now.monotonic).toBeGreaterThanOrEqual(SHORTEST_OFF * 1000);
    });
  });
});
