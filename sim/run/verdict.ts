import { partSpans } from '../../src/farm/day-boundaries.ts';
import type { Farm } from '../../src/farm/farm.ts';
import { hasPlants } from '../../src/farm/standing.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { localDayOf } from '../../src/time/local-day.ts';
import { itemAt } from '../../src/units/assertion.ts';
import { isOfOneBench, type Fault } from '../faults/fault.ts';
import { faultCall } from './fault-call.ts';
import type { Outcome } from './rehearse.ts';

/** What a rehearsal comes to, over the central run and every draw. */
export type RehearsalVerdict =
  | { readonly kind: 'holds'; readonly runs: number }
  | {
      readonly kind: 'holds-unless-missed';
      readonly bench: string;
      readonly theta: number;
      readonly missedAtMillis: number;
      readonly failing: number;
      readonly runs: number;
    }
  | {
      readonly kind: 'may-wilt';
      readonly bench: string;
      /** The earliest in any run: the dry edge of the doubt. */
      readonly fromMillis: number;
      readonly failing: number;
      readonly runs: number;
    };

/** Whether one missed flood takes a planted bench of this run below its wilt floor. */
const failsOneMiss = (farm: Farm, outcome: Outcome): boolean =>
  outcome.benches.some(
    (bench, place) => hasPlants(itemAt(farm.benches, place)) && bench.oneMiss.theta < farm.floors.wilt,
  );

/**
 * Judges the runs of a rehearsal. Where faults were scripted nobody asks what one more missed flood would do:
 * the verdict is then whether a bench may wilt.
 */
export const judgeRehearsal = (
  farm: Farm,
  outcomes: readonly Outcome[],
  faults: readonly Fault[] = [],
): RehearsalVerdict => {
  const runs = outcomes.length;
  const wilts = outcomes.flatMap((outcome) =>
    outcome.benches.flatMap((bench, place) =>
      bench.wiltedAtMillis === null || !hasPlants(itemAt(farm.benches, place))
        ? []
        : [{ place, outcome, fromMillis: bench.wiltedAtMillis }],
    ),
  );
  const first = wilts.toSorted((a, b) => a.fromMillis - b.fromMillis)[0];
  if (first !== undefined) {
    return {
      kind: 'may-wilt',
      bench: itemAt(farm.benches, first.place).name,
      fromMillis: first.fromMillis,
      failing: new Set(wilts.map((wilt) => wilt.outcome)).size,
      runs,
    };
  }
  if (faults.length > 0) return { kind: 'holds', runs };
  const planted = (place: number): boolean => hasPlants(itemAt(farm.benches, place));
  const misses = outcomes
    .flatMap((outcome) => outcome.benches.map((bench, place) => ({ place, ...bench.oneMiss })))
    .filter((miss) => planted(miss.place))
    .toSorted((a, b) => a.theta - b.theta);
  const worst = misses[0];
  const failing = outcomes.filter((outcome) => failsOneMiss(farm, outcome)).length;
  if (worst === undefined || failing === 0) return { kind: 'holds', runs };
  return {
    kind: 'holds-unless-missed',
    bench: itemAt(farm.benches, worst.place).name,
    theta: worst.theta,
    missedAtMillis: worst.missedAtMillis,
    failing,
    runs,
  };
};

const paceWords = (farm: Farm, part: string): string => {
  const found = farm.dayPlan.find((candidate) => candidate.name === part);
  if (found === undefined) return part;
  const { floodMinutes, pace } = found;
  return pace.kind === 'rest'
    ? `"${part}" (now rests of ${pace.restMinutes} min between floods of ${floodMinutes} min): shorten the rest, or lengthen the floods`
    : `"${part}" (now ${pace.floods} floods of ${floodMinutes} min each): give more floods, or lengthen them`;
};

/** So little above the level at which the pump draws air is less than a sip. */
const NEARLY_DRY_LITRES = 10;

/** Whether nobody was called, or not in time, about something that a sensor on the common return cannot show. */
const unseenOnReturn = (farm: Farm, outcomes: readonly Outcome[], faults: readonly Fault[]): boolean => {
  const call = faultCall(farm, outcomes, faults);
  const unseen = call !== null && (call.silentRuns > 0 || call.lateRuns > 0);
  return unseen && faults.some(({ kind }) => isOfOneBench(kind));
};

const WALK =
  'One sensor on the common return does not see one bench. Walk the benches, and look at the inlet of each.';

/**
 * What to change, in words; empty when nothing needs to. Where faults were scripted nothing is said of the day plan: what
 * a broken pump does to the crop is no reason to change it.
 */
export const adviceOn = (
  farm: Farm,
  outcomes: readonly Outcome[],
  verdict: RehearsalVerdict,
  faults: readonly Fault[] = [],
): readonly string[] => {
  if (faults.length > 0) return unseenOnReturn(farm, outcomes, faults) ? [WALK] : [];
  const partAt = (atMillis: number): string | undefined =>
    partSpans(farm.dayPlan, farm.place, localDayOf(wallMillis(atMillis), farm.place.timeZone)).find(
      (span) => atMillis >= span.start && atMillis < span.end,
    )?.part.name;
  const advice: string[] = [];
  const inPart = (atMillis: number): void => {
    const part = partAt(atMillis);
    if (part !== undefined) advice.push(`Look at ${paceWords(farm, part)}. Then rehearse again.`);
  };
  // An alarm that stands since the day before is not raised again: the water itself is asked too.
  const tankLow = outcomes.some(
    ({ entries, tankLitresLowest }) =>
      tankLitresLowest < farm.tank.dryLitres + NEARLY_DRY_LITRES ||
      entries.some((entry) => entry.kind === 'alarm-raised' && entry.alarm === 'tank-low'),
  );
  if (tankLow) advice.push('The tank runs low on such a day: top it up earlier, or more than once.');
  switch (verdict.kind) {
    case 'holds':
      return advice;
    case 'holds-unless-missed':
      inPart(verdict.missedAtMillis);
      return advice;
    case 'may-wilt':
      if (!tankLow) inPart(verdict.fromMillis);
      return advice;
  }
};
