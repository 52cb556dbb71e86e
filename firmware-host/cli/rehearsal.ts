import type { Farm } from '../../src/farm/farm.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { localClockText, type LocalDay } from '../../src/time/local-day.ts';
import { itemAt } from '../../src/units/assertion.ts';
import type { Fault, FaultCall, Outcome, RehearsalVerdict } from '../simulated-shed.ts';

/** One rehearsal, ready to be told. */
export interface Rehearsal {
  readonly farm: Farm;
  readonly day: LocalDay;
  readonly weather: string;
  readonly seed: number;
  readonly faults: readonly Fault[];
  /** Null when no fault was scripted. */
  readonly call: FaultCall | null;
  readonly outcomes: readonly Outcome[];
  readonly verdict: RehearsalVerdict;
  readonly advice: readonly string[];
}

/** What would come of a failure on top; asked only where no fault was scripted. */
export interface WhatIf {
  readonly timeLeftMinutes: number;
  readonly timeLeftMinutesWorst: number;
  readonly timeLeftWorstIfPumpFailsAt: string;
  /** Points of held water above the wilt floor with the worst single flood missed; null when none could be. */
  readonly oneMissMarginPoints: number | null;
  readonly oneMissMarginPointsWorst: number | null;
}

/** A bench over all runs: the central run beside the worst of them. */
export interface BenchReport {
  readonly bench: string;
  readonly crop: string;
  readonly lowestHeldPercent: number;
  readonly lowestHeldAt: string;
  readonly lowestHeldPercentWorst: number;
  readonly belowStressMinutesWorst: number;
  /** The earliest of all runs. */
  readonly mayWiltFromMillis: number | null;
  readonly longestRestMinutes: number;
  readonly whatIf: WhatIf | null;
  readonly warmestWaterCelsius: number;
  readonly warmestWaterCelsiusWorst: number;
  readonly drunkLitres: number;
}

export const percent = (share: number): number => Math.round(share * 1000) / 10;
export const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));
const lowest = <Item>(items: readonly Item[], by: (item: Item) => number): Item =>
  items.reduce((least, item) => (by(item) < by(least) ? item : least));

/** `13:42`, `24:00` for the end of the day, or `13:42 on the day after`. */
export const whenText = ({ farm, day }: Rehearsal, atMillis: number): string => {
  if (atMillis === day.end) return '24:00';
  const clock = localClockText(wallMillis(atMillis), farm.place.timeZone);
  return atMillis < day.end ? clock : `${clock} on the day after`;
};

export const centralOf = (rehearsal: Rehearsal): Outcome => itemAt(rehearsal.outcomes, 0);

/** Benches that are not sown yet on the day: their plants are taken as newly sown and drink next to nothing. */
export const notYetSown = ({ farm, day }: Rehearsal): readonly string[] =>
  farm.benches.filter(({ plants, sown }) => plants > 0 && sown > day.date).map(({ name }) => name);

const whatIf = (rehearsal: Rehearsal, place: number): WhatIf | null => {
  if (rehearsal.faults.length > 0) return null;
  const runs = rehearsal.outcomes.map((outcome) => itemAt(outcome.benches, place));
  const own = itemAt(runs, 0);
  const left = lowest(runs, (run) => run.timeLeft.minutes);
  const { wilt } = rehearsal.farm.floors;
  const margin = (theta: number): number | null => (theta === Infinity ? null : percent(theta - wilt));
  return {
    timeLeftMinutes: Math.floor(own.timeLeft.minutes),
    timeLeftMinutesWorst: Math.floor(left.timeLeft.minutes),
    timeLeftWorstIfPumpFailsAt: whenText(rehearsal, left.timeLeft.failedAtMillis),
    oneMissMarginPoints: margin(own.oneMiss.theta),
    oneMissMarginPointsWorst: margin(lowest(runs, (run) => run.oneMiss.theta).oneMiss.theta),
  };
};

export const benchReports = (rehearsal: Rehearsal): readonly BenchReport[] =>
  rehearsal.farm.benches.map((bench, place) => {
    const runs = rehearsal.outcomes.map((outcome) => itemAt(outcome.benches, place));
    const own = itemAt(runs, 0);
    const wilts = runs.flatMap(({ wiltedAtMillis }) => wiltedAtMillis ?? []);
    return {
      bench: bench.name,
      crop: bench.crop,
      lowestHeldPercent: percent(own.lowest.value),
      lowestHeldAt: whenText(rehearsal, own.lowest.atMillis),
      lowestHeldPercentWorst: percent(lowest(runs, (run) => run.lowest.value).lowest.value),
      belowStressMinutesWorst: Math.round(Math.max(...runs.map((run) => run.belowStressMinutes))),
      mayWiltFromMillis: bench.plants === 0 || wilts.length === 0 ? null : Math.min(...wilts),
      longestRestMinutes: Math.round(own.longestRestMinutes),
      whatIf: whatIf(rehearsal, place),
      warmestWaterCelsius: rounded(own.warmest.value, 1),
      warmestWaterCelsiusWorst: rounded(Math.max(...runs.map((run) => run.warmest.value)), 1),
      drunkLitres: Math.round(own.drunkLitres),
    };
  });

/** Floods of the central run by day part, in the order of the plan, with how many were not confirmed. */
export const floodsByPart = (
  rehearsal: Rehearsal,
): readonly { readonly part: string; readonly floods: number; readonly notConfirmed: number }[] => {
  const entries = centralOf(rehearsal).entries.filter((entry) => entry.at < rehearsal.day.end);
  return rehearsal.farm.dayPlan.map(({ name }) => {
    const verdicts = entries.flatMap((entry) =>
      entry.kind === 'verdict' && entry.part === name ? [entry.verdict.kind] : [],
    );
    return {
      part: name,
      floods: entries.filter((entry) => entry.kind === 'flood-started' && entry.part === name).length,
      notConfirmed: verdicts.filter((kind) => kind !== 'confirmed').length,
    };
  });
};

export const kilowattHours = ({ farm }: Rehearsal, outcome: Outcome): number =>
  (outcome.pumpMinutes / 60) * (farm.pump.watts / 1000);

/** What no rehearsal may be silent about. */
export const RESTS_ON =
  'Rests on default parameters: nobody has measured drain, holding capacity and uptake on these benches. ' +
  'Oxygen in still water is not modelled here.';
