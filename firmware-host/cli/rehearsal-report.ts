import type { Farm } from '../../src/farm/farm.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { localClockText, type LocalDay } from '../../src/time/local-day.ts';
import { itemAt } from '../../src/units/assertion.ts';
import type { Outcome, RehearsalVerdict } from '../simulated-shed.ts';
import { hourAxis, lowestBars, stretches } from './chart.ts';

/** One rehearsal, ready to be told. */
export interface Rehearsal {
  readonly farm: Farm;
  readonly day: LocalDay;
  readonly weather: string;
  readonly seed: number;
  readonly outcomes: readonly Outcome[];
  readonly verdict: RehearsalVerdict;
  readonly advice: readonly string[];
}

/** A bench over all runs: the central run beside the worst of them. */
export interface BenchReport {
  readonly bench: string;
  readonly crop: string;
  readonly lowestHeldPercent: number;
  readonly lowestHeldAt: string;
  readonly lowestHeldPercentWorst: number;
  readonly belowStressMinutesWorst: number;
  readonly longestRestMinutes: number;
  readonly timeLeftMinutes: number;
  readonly timeLeftMinutesWorst: number;
  readonly timeLeftWorstIfPumpFailsAt: string;
  /** Points of held water above the wilt floor with the worst single flood missed. */
  readonly oneMissMarginPoints: number;
  readonly oneMissMarginPointsWorst: number;
  readonly warmestWaterCelsius: number;
  readonly warmestWaterCelsiusWorst: number;
  readonly drunkLitres: number;
}

const percent = (share: number): number => Math.round(share * 1000) / 10;
const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));
const lowest = <Item>(items: readonly Item[], by: (item: Item) => number): Item =>
  items.reduce((least, item) => (by(item) < by(least) ? item : least));

export const clockOf = (farm: Farm, atMillis: number): string =>
  localClockText(wallMillis(atMillis), farm.place.timeZone);

export const centralOf = (rehearsal: Rehearsal): Outcome => itemAt(rehearsal.outcomes, 0);

export const benchReports = (rehearsal: Rehearsal): readonly BenchReport[] => {
  const { farm, outcomes } = rehearsal;
  const central = centralOf(rehearsal);
  return farm.benches.map((bench, place) => {
    const runs = outcomes.map((outcome) => itemAt(outcome.benches, place));
    const own = itemAt(central.benches, place);
    const left = lowest(runs, (run) => run.timeLeft.minutes);
    return {
      bench: bench.name,
      crop: bench.crop,
      lowestHeldPercent: percent(own.lowest.value),
      lowestHeldAt: clockOf(farm, own.lowest.atMillis),
      lowestHeldPercentWorst: percent(lowest(runs, (run) => run.lowest.value).lowest.value),
      belowStressMinutesWorst: Math.round(Math.max(...runs.map((run) => run.belowStressMinutes))),
      longestRestMinutes: Math.round(central.longestRestMinutes),
      timeLeftMinutes: Math.floor(own.timeLeft.minutes),
      timeLeftMinutesWorst: Math.floor(left.timeLeft.minutes),
      timeLeftWorstIfPumpFailsAt: clockOf(farm, left.timeLeft.failedAtMillis),
      oneMissMarginPoints: percent(own.oneMiss.theta - farm.floors.wilt),
      oneMissMarginPointsWorst: percent(
        lowest(runs, (run) => run.oneMiss.theta).oneMiss.theta - farm.floors.wilt,
      ),
      warmestWaterCelsius: rounded(own.warmest.value, 1),
      warmestWaterCelsiusWorst: rounded(Math.max(...runs.map((run) => run.warmest.value)), 1),
      drunkLitres: Math.round(own.drunkLitres),
    };
  });
};

/** Floods of the central run by day part, in the order of the plan, with how many were not confirmed. */
export const floodsByPart = (
  rehearsal: Rehearsal,
): readonly { readonly part: string; readonly floods: number; readonly notConfirmed: number }[] =>
  rehearsal.farm.dayPlan.map(({ name }) => {
    const { entries } = centralOf(rehearsal);
    const verdicts = entries.flatMap((entry) =>
      entry.kind === 'verdict' && entry.part === name ? [entry.verdict.kind] : [],
    );
    return {
      part: name,
      floods: entries.filter((entry) => entry.kind === 'flood-started' && entry.part === name).length,
      notConfirmed: verdicts.filter((kind) => kind !== 'confirmed').length,
    };
  });

export const kilowattHours = ({ farm }: Rehearsal, outcome: Outcome): number =>
  (outcome.pumpMinutes / 60) * (farm.pump.watts / 1000);

/** The verdict in one sentence, for a person. */
export const verdictText = ({ farm, verdict }: Rehearsal): string => {
  switch (verdict.kind) {
    case 'holds':
      return 'Holds, also if any one flood is missed.';
    case 'holds-unless-missed':
      return (
        `Holds, but not if one flood is missed: without the one at ${clockOf(farm, verdict.missedAtMillis)} ` +
        `${verdict.bench} would be down to ${percent(verdict.theta)} % ` +
        `(in ${verdict.failing} of ${verdict.runs} runs below the wilt floor).`
      );
    case 'may-wilt':
      return (
        `${verdict.bench} may begin to wilt from ${clockOf(farm, verdict.fromMillis)} ` +
        `(in ${verdict.failing} of ${verdict.runs} runs).`
      );
  }
};

const spanWords = (minutes: number): string => {
  if (minutes >= 24 * 60) return '> 24 h';
  return minutes < 100
    ? `${minutes} min`
    : `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')}`;
};

const signed = (points: number): string => `${points >= 0 ? '+' : '−'}${Math.abs(points).toFixed(0)}`;

const table = (rows: readonly (readonly string[])[]): readonly string[] => {
  const widths = itemAt(rows, 0).map((_, column) =>
    Math.max(...rows.map((row) => (row[column] ?? '').length)),
  );
  return rows.map((row) =>
    row
      .map((cell, column) =>
        column === 0 ? cell.padEnd(widths[column] ?? 0) : cell.padStart(widths[column] ?? 0),
      )
      .join('  ')
      .trimEnd(),
  );
};

const COLUMNS = 72;

const chart = (rehearsal: Rehearsal): readonly string[] => {
  const { farm, day } = rehearsal;
  const { trace, pumpRuns } = centralOf(rehearsal);
  const label = Math.max(6, ...farm.benches.map((bench) => bench.name.length));
  const bench = (place: number): string =>
    lowestBars(
      trace.map(({ atMillis, thetas }) => ({ at: atMillis, share: thetas[place] ?? 1 })),
      day.start,
      day.end,
      COLUMNS,
    );
  const floods = stretches(
    pumpRuns.map((run) => ({ from: run.fromMillis, until: run.untilMillis })),
    day.start,
    day.end,
    COLUMNS,
  );
  return [
    'Held water through the day (central run; █ full, ▁ empty) and floods',
    ...farm.benches.map(({ name }, place) => `${name.padEnd(label)}  ${bench(place)}`),
    `${'floods'.padEnd(label)}  ${floods}`,
    `${' '.repeat(label)}  ${hourAxis(COLUMNS)}`,
  ];
};

const benchTable = (rehearsal: Rehearsal): readonly string[] => [
  ...table([
    [
      '',
      'lowest held',
      'at',
      'longest rest',
      'time left',
      'if pump fails',
      'one-miss margin',
      'warmest water',
    ],
    ...benchReports(rehearsal).map((bench) => [
      bench.bench,
      `${bench.lowestHeldPercent.toFixed(0)} % (${bench.lowestHeldPercentWorst.toFixed(0)})`,
      bench.lowestHeldAt,
      `${bench.longestRestMinutes} min`,
      `${spanWords(bench.timeLeftMinutes)} (${spanWords(bench.timeLeftMinutesWorst)})`,
      `at ${bench.timeLeftWorstIfPumpFailsAt}`,
      `${signed(bench.oneMissMarginPoints)} (${signed(bench.oneMissMarginPointsWorst)})`,
      `${bench.warmestWaterCelsius.toFixed(0)} °C (${bench.warmestWaterCelsiusWorst.toFixed(0)})`,
    ]),
  ]),
  'In brackets the worst of all runs. Margin: points of held water above the wilt floor, one flood missed.',
];

const totals = (rehearsal: Rehearsal): readonly string[] => {
  const central = centralOf(rehearsal);
  const drunk = rehearsal.outcomes.map((outcome) => outcome.drunkLitres);
  const parts = floodsByPart(rehearsal).map(
    ({ part, floods, notConfirmed }) =>
      `${part} ${floods}${notConfirmed > 0 ? ` (${notConfirmed} not confirmed)` : ''}`,
  );
  const { start, end } = central.strength;
  return [
    `Floods: ${parts.join(', ')}.`,
    `Pump ${(central.pumpMinutes / 60).toFixed(1)} h, ${kilowattHours(rehearsal, central).toFixed(2)} kWh. ` +
      `Drunk ${central.drunkLitres.toFixed(0)} L (${Math.min(...drunk).toFixed(0)} to ${Math.max(...drunk).toFixed(0)} over the runs). ` +
      `Strength ${start.toFixed(2)} to ${end.toFixed(2)} mS/cm with nothing added but water.`,
  ];
};

const thirst = (rehearsal: Rehearsal): readonly string[] =>
  benchReports(rehearsal)
    .filter((bench) => bench.belowStressMinutesWorst > 0)
    .map(
      (bench) =>
        `${bench.bench} is below its stress floor for up to ${bench.belowStressMinutesWorst} min: growth slows.`,
    );

const alarms = (rehearsal: Rehearsal): readonly string[] =>
  centralOf(rehearsal).entries.flatMap((entry) =>
    entry.kind === 'alarm-raised' ? [`${clockOf(rehearsal.farm, entry.at)}  ${entry.text}`] : [],
  );

/** What no rehearsal may be silent about. */
const RESTS_ON =
  'Rests on default parameters: nobody has measured drain, holding capacity and uptake on these benches. ' +
  'Oxygen in still water is not modelled here.';

/** The rehearsal for a person at a terminal. */
export const rehearsalText = (rehearsal: Rehearsal): string => {
  const { farm, day, weather, outcomes, seed, advice } = rehearsal;
  const raised = alarms(rehearsal);
  return [
    `${farm.farm}, ${day.date}: rehearsed on ${weather}.`,
    ...(farm.invented === undefined ? [] : ['An invented farm: none of these data are of a real one.']),
    `One central run and ${outcomes.length - 1} draws of what nobody has measured (seed ${seed}).`,
    '',
    verdictText(rehearsal),
    ...thirst(rehearsal),
    ...advice,
    '',
    ...benchTable(rehearsal),
    '',
    ...totals(rehearsal),
    ...(raised.length === 0 ? [] : ['', 'Alarms of the central run:', ...raised]),
    '',
    ...chart(rehearsal),
    '',
    RESTS_ON,
  ].join('\n');
};

/** The rehearsal as data; units stand in the names. */
export const rehearsalJson = (rehearsal: Rehearsal): object => {
  const central = centralOf(rehearsal);
  const { farm, day, verdict } = rehearsal;
  return {
    farm: farm.farm,
    invented: farm.invented !== undefined,
    date: day.date,
    weather: rehearsal.weather,
    seed: rehearsal.seed,
    runs: rehearsal.outcomes.length,
    verdict: { kind: verdict.kind, says: verdictText(rehearsal) },
    advice: rehearsal.advice,
    benches: benchReports(rehearsal),
    floodsByPart: floodsByPart(rehearsal),
    pumpHours: rounded(central.pumpMinutes / 60, 2),
    kilowattHours: rounded(kilowattHours(rehearsal, central), 2),
    drunkLitres: Math.round(central.drunkLitres),
    strengthMillisiemensPerCm: {
      start: rounded(central.strength.start, 2),
      end: rounded(central.strength.end, 2),
    },
    alarms: central.entries.flatMap((entry) =>
      entry.kind === 'alarm-raised'
        ? [
            {
              at: new Date(entry.at).toISOString(),
              alarm: entry.alarm,
              priority: entry.priority,
              text: entry.text,
            },
          ]
        : [],
    ),
    restsOn: RESTS_ON,
  };
};
