import { integrated } from '../support/odex.ts';
import type { ShedOfEquations } from '../laws/flood-day-equations.ts';
import { capacitiesAt, equationsAt, heldOf, type HeldAt, type Stretch } from './odex-load.ts';

/** What the judge goes by: tolerance of the run that all others are held against. */
const EXACT = 1e-10;
const SECONDS_PER_MINUTE = 60;

export interface Errors {
  /** Largest relative error of held water in any bench at any moment told. */
  readonly held: number;
  /** Largest error of the moments at which θ of a bench falls through a threshold, s, and how many there are. */
  readonly crossingSeconds: number;
  readonly crossings: number;
}

/** The accurate course, told at the very moments at which `told` tells. */
export const accurately = (
  shed: ShedOfEquations,
  plan: readonly Stretch[],
  start: readonly number[],
  told: readonly HeldAt[],
): readonly HeldAt[] => {
  let y = start;
  let at = 0;
  let part = 0;
  const goTo = (minutes: number): void => {
    if (minutes > at) y = integrated(equationsAt(shed, plan[part]!), at, y, minutes, EXACT);
    at = minutes;
  };
  return told.map(({ minutes }) => {
    while (minutes > plan[part]!.to) {
      goTo(plan[part]!.to);
      part += 1;
    }
    goTo(minutes);
    return { minutes, heldLitres: heldOf(y) };
  });
};

/** Minutes at which θ of each bench falls through the threshold, by a straight line between neighbours a minute apart. */
const falls = (shed: ShedOfEquations, told: readonly HeldAt[], theta: number): readonly number[] =>
  shed.benches.flatMap((_, place) =>
    told.flatMap(({ minutes, heldLitres }, step) => {
      const before = told[step - 1];
      if (before === undefined) return [];
      const threshold = theta * capacitiesAt(shed, before.minutes)[place]!;
      const [high, low] = [before.heldLitres[place]!, heldLitres[place]!];
      if (!(high >= threshold && low < threshold)) return [];
      return [before.minutes + ((high - threshold) / (high - low)) * (minutes - before.minutes)];
    }),
  );

export const errorsOf = (
  shed: ShedOfEquations,
  told: readonly HeldAt[],
  exact: readonly HeldAt[],
  thresholds: readonly number[],
): Errors => {
  let held = 0;
  told.forEach(({ heldLitres }, step) => {
    heldLitres.forEach((litres, place) => {
      held = Math.max(held, Math.abs(litres / exact[step]!.heldLitres[place]! - 1));
    });
  });
  let crossingSeconds = 0;
  let crossings = 0;
  for (const theta of thresholds) {
    const mine = falls(shed, told, theta);
    const theirs = falls(shed, exact, theta);
    if (theirs.length === 0 || mine.length !== theirs.length) {
      throw new Error(
        `θ ${String(theta)} is crossed ${String(mine.length)} times, not ${String(theirs.length)}`,
      );
    }
    theirs.forEach((minutes, place) => {
      crossingSeconds = Math.max(crossingSeconds, SECONDS_PER_MINUTE * Math.abs(mine[place]! - minutes));
    });
    crossings += theirs.length;
  }
  return { held, crossingSeconds, crossings };
};
