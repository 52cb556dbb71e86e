import type { Farm } from '../../src/farm/farm.ts';
import { hasPlants, standingsOf } from '../../src/farm/standing.ts';
import { wallMillis } from '../../src/time/instant.ts';
import {
  dateBefore,
  daysBetweenDates,
  localDateWords,
  localClockText,
  localDayOf,
  type LocalDay,
} from '../../src/time/local-day.ts';
import { itemAt } from '../../src/units/assertion.ts';
import {
  bandOf,
  isOfOneBench,
  type Band,
  type Fault,
  type FaultCall,
  type Outcome,
  type RehearsalVerdict,
  type ScenarioName,
} from '../simulated-shed.ts';

/** One rehearsal, ready to be told. */
export interface Rehearsal {
  readonly farm: Farm;
  readonly scenario: ScenarioName | null;
  /** The first day. */
  readonly day: LocalDay;
  readonly days: number;
  /** The end of the last. */
  readonly endMillis: number;
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
  readonly timeLeftMinutes: Band;
  /** In the run in which it is shortest. */
  readonly timeLeftWorstIfPumpFailsAt: string;
  /** Points of held water above the wilt floor with the worst single flood missed; null when none could be. */
  readonly oneMissMarginPoints: Band | null;
}

/** A bench over all runs, as bands of 5, 50 and 95 % of them. */
export interface BenchReport {
  readonly bench: string;
  /** On the first day. */
  readonly crop: string;
  /** What comes onto the bench in these days. */
  readonly next: readonly { readonly on: string; readonly crop: string | null; readonly plants: number }[];
  readonly lowestHeldPercent: Band;
  /** In the run in which it is lowest. */
  readonly lowestHeldAt: string;
  readonly belowStressMinutesWorst: number;
  /** The earliest of all runs. */
  readonly mayWiltFromMillis: number | null;
  readonly longestRestMinutes: number;
  readonly whatIf: WhatIf | null;
  readonly warmestWaterCelsius: Band;
  readonly lowestOxygenMilligramsPerLitre: Band;
  /** Of the runs in which the bench is ever above its wilt floor; null where there is none. */
  readonly strongestMillisiemensPerCm: Band | null;
  readonly drunkLitres: Band;
}

export const percent = (share: number): number => Math.round(share * 1000) / 10;
export const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));
const lowest = <Item>(items: readonly Item[], by: (item: Item) => number): Item =>
  items.reduce((least, item) => (by(item) < by(least) ? item : least));

/** `2026-07-15 and the 2 days after` */
export const daysWords = (date: string, days: number): string =>
  days === 1 ? date : `${date} and the ${days === 2 ? 'day' : `${days - 1} days`} after`;

/** `13:42`, `24:00` for the end of the day, `13:42 on the day after`, or `13:42 on 16 July` where it is about several days. */
export const whenText = ({ farm, day, days, endMillis }: Rehearsal, atMillis: number): string => {
  const zone = farm.place.timeZone;
  if (days === 1 && atMillis === day.end) return '24:00';
  const clock = localClockText(wallMillis(atMillis), zone);
  if (days > 1) return `${clock} on ${localDateWords(wallMillis(atMillis), zone)}`;
  return atMillis < endMillis ? clock : `${clock} on the day after`;
};

/** The bench that a fault is about: `Bench 3`; null where it is about none. */
export const benchOf = ({ farm }: Rehearsal, { kind, bench }: Fault): string | null =>
  isOfOneBench(kind)
    ? (farm.benches[bench ?? farm.benches.findIndex(({ plants }) => plants > 0)]?.name ?? null)
    : null;

export const centralOf = (rehearsal: Rehearsal): Outcome => itemAt(rehearsal.outcomes, 0);

/** Benches that are not sown yet on the day: their plants are taken as newly sown and drink next to nothing. */
export const notYetSown = ({ farm, day }: Rehearsal): readonly string[] =>
  farm.benches.filter(({ plants, sown }) => plants > 0 && sown > day.date).map(({ name }) => name);

/** Benches with plants past the usual age at harvest on their last day there: they go on growing by their curve. */
export const pastHarvest = ({ farm, endMillis }: Rehearsal): readonly string[] => {
  const lastDate = localDayOf(wallMillis(endMillis - 1), farm.place.timeZone).date;
  return farm.benches
    .filter((bench) =>
      standingsOf(bench).some(({ plants, sown, traits }, place) => {
        const follows = bench.next[place];
        const until = follows === undefined ? lastDate : dateBefore(follows.on);
        return plants > 0 && daysBetweenDates(sown, until) > traits.harvestDays;
      }),
    )
    .map(({ name }) => name);
};

/** What changes on the benches in these days, a sentence for each. */
export const changesText = ({ farm }: Rehearsal): readonly string[] =>
  farm.benches.flatMap(({ name, next }) =>
    next.map(({ on, crop, plants, sown }) =>
      plants === 0
        ? `${name} is cleared on ${on} and stands empty.`
        : `On ${on} ${plants} plants of ${crop}, sown on ${sown}, come onto ${name}, from the start of that day.`,
    ),
  );

const whatIf = (rehearsal: Rehearsal, place: number): WhatIf | null => {
  if (rehearsal.faults.length > 0) return null;
  const runs = rehearsal.outcomes.map((outcome) => itemAt(outcome.benches, place));
  const { wilt } = rehearsal.farm.floors;
  const margins = runs.map(({ oneMiss }) => percent(oneMiss.theta - wilt));
  return {
    timeLeftMinutes: bandOf(runs.map(({ timeLeft }) => timeLeft.minutes)),
    timeLeftWorstIfPumpFailsAt: whenText(
      rehearsal,
      lowest(runs, (run) => run.timeLeft.minutes).timeLeft.failedAtMillis,
    ),
    oneMissMarginPoints: margins.every(Number.isFinite) ? bandOf(margins) : null,
  };
};

export const benchReports = (rehearsal: Rehearsal): readonly BenchReport[] =>
  rehearsal.farm.benches.map((bench, place) => {
    const runs = rehearsal.outcomes.map((outcome) => itemAt(outcome.benches, place));
    const wilts = runs.flatMap(({ wiltedAtMillis }) => wiltedAtMillis ?? []);
    const strongest = runs.flatMap((run) => run.strongest ?? []);
    return {
      bench: bench.name,
      crop: bench.crop,
      next: bench.next.map(({ on, crop, plants }) => ({ on, crop: plants > 0 ? crop : null, plants })),
      lowestHeldPercent: bandOf(runs.map((run) => percent(run.lowest.value))),
      lowestHeldAt: whenText(rehearsal, lowest(runs, (run) => run.lowest.value).lowest.atMillis),
      belowStressMinutesWorst: Math.round(Math.max(...runs.map((run) => run.belowStressMinutes))),
      mayWiltFromMillis: !hasPlants(bench) || wilts.length === 0 ? null : Math.min(...wilts),
      longestRestMinutes: Math.round(Math.max(...runs.map((run) => run.longestRestMinutes))),
      whatIf: whatIf(rehearsal, place),
      warmestWaterCelsius: bandOf(runs.map((run) => run.warmest.value)),
      lowestOxygenMilligramsPerLitre: bandOf(runs.map((run) => run.lowestOxygen.value)),
      strongestMillisiemensPerCm: strongest.length === 0 ? null : bandOf(strongest),
      drunkLitres: bandOf(runs.map((run) => run.drunkLitres)),
    };
  });

/** Floods of the central run by day part, in the order of the plan, with how many were not confirmed. */
export const floodsByPart = (
  rehearsal: Rehearsal,
): readonly { readonly part: string; readonly floods: number; readonly notConfirmed: number }[] => {
  const entries = centralOf(rehearsal).entries.filter((entry) => entry.at < rehearsal.endMillis);
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
  'Rests on default parameters: nobody has measured drain, holding capacity, uptake and oxygen on these benches.';
