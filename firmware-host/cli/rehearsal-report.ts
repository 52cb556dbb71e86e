import { CLOGGING, scenarioOf, type Fault, type ScenarioName } from '../simulated-shed.ts';
import { dayChart } from './rehearsal-chart.ts';
import {
  benchOf,
  benchReports,
  centralOf,
  changesText,
  daysWords,
  floodsByPart,
  kilowattHours,
  notYetSown,
  pastHarvest,
  percent,
  RESTS_ON,
  whenText,
  type Rehearsal,
} from './rehearsal.ts';
import { benchTable } from './rehearsal-table.ts';
import { hangsOnText, oxygenText } from './rehearsal-doubt.ts';
import { strengthText } from './rehearsal-strength.ts';
import { spanWords, upToWords, verdictText } from './rehearsal-verdict.ts';
import { wrapped } from './wrap.ts';

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

/** What a scenario says, and where it was asked for over more or fewer days than it says. */
const scenarioText = (name: ScenarioName, days: number): string => {
  const { says, days: own } = scenarioOf(name);
  const asked = days === own ? '' : ` Here over ${counted(days, 'day', 'days')}, as asked.`;
  return `Scenario ${name}: ${says}.${asked}`;
};

const faultText = (rehearsal: Rehearsal, fault: Fault): string => {
  const { fromMillis, untilMillis } = fault;
  const bench = benchOf(rehearsal, fault);
  const { endShare, days } = fault.clogging ?? CLOGGING;
  const course =
    fault.kind === 'branch-clogging'
      ? `, down to ${percent(endShare)} % of its flow in ${counted(days, 'day', 'days')},`
      : '';
  const what = bench === null ? fault.kind : `${fault.kind} (${bench})${course}`;
  return untilMillis === Infinity
    ? `Fault: ${what} from ${whenText(rehearsal, fromMillis)}${rehearsal.days > 1 ? '' : ' on'}, not mended.`
    : `Fault: ${what} from ${whenText(rehearsal, fromMillis)} to ${whenText(rehearsal, untilMillis)}.`;
};

/** What was rehearsed, on what, with which faults. */
export const heading = (rehearsal: Rehearsal): readonly string[] => {
  const { farm, day, days, scenario, weather, outcomes, seed, faults } = rehearsal;
  const draws = outcomes.length - 1;
  const unsown = notYetSown(rehearsal);
  const past = pastHarvest(rehearsal);
  return [
    `${farm.farm}, ${daysWords(day.date, days)}: rehearsed on ${weather}.`,
    ...(scenario === null ? [] : [scenarioText(scenario, days)]),
    ...(farm.invented === undefined ? [] : ['An invented farm: none of these data are of a real one.']),
    draws === 0
      ? `One central run, no draws of what nobody has measured (seed ${seed}).`
      : `One central run and ${counted(draws, 'draw', 'draws')} of what nobody has measured (seed ${seed}).`,
    ...(unsown.length === 0
      ? []
      : [`Not sown yet on this day, rehearsed as newly sown: ${unsown.join(', ')}. Is the date right?`]),
    ...(past.length === 0
      ? []
      : [`Past the usual age at harvest, rehearsed as if the crop went on growing: ${past.join(', ')}.`]),
    ...changesText(rehearsal),
    ...faults.map((fault) => faultText(rehearsal, fault)),
  ];
};

/** Floods, pump, power, water and strength of the span. */
export const totals = (rehearsal: Rehearsal): readonly string[] => {
  const central = centralOf(rehearsal);
  const drunk = rehearsal.outcomes.map((outcome) => outcome.drunkLitres);
  const [most, least] = [Math.max(...drunk).toFixed(0), Math.min(...drunk).toFixed(0)];
  const spread = most === least ? '' : ` (${least} to ${most} over the runs)`;
  const parts = floodsByPart(rehearsal).map(
    ({ part, floods, notConfirmed }) =>
      `${part} ${floods}${notConfirmed > 0 ? ` (${notConfirmed} not confirmed)` : ''}`,
  );
  return [
    `Floods: ${parts.join(', ')}.`,
    `Pump ${(central.pumpMinutes / 60).toFixed(1)} h, ${kilowattHours(rehearsal, central).toFixed(2)} kWh. ` +
      `The plants drank ${central.drunkLitres.toFixed(0)} L${spread}. ` +
      `${strengthText(rehearsal)} ` +
      `Longest rest ${spanWords(Math.max(...benchReports(rehearsal).map(({ longestRestMinutes }) => longestRestMinutes)))}.`,
  ];
};

/** What of the benches the verdict has not said. */
const thirst = (rehearsal: Rehearsal): readonly string[] => {
  const { verdict, faults } = rehearsal;
  return benchReports(rehearsal).flatMap(({ bench, mayWiltFromMillis, belowStressMinutesWorst }) => {
    if (mayWiltFromMillis !== null) {
      // With scripted faults the table has a column for it.
      const said = faults.length > 0 || (verdict.kind === 'may-wilt' && verdict.bench === bench);
      return said ? [] : [`${bench} may begin to wilt from ${whenText(rehearsal, mayWiltFromMillis)}.`];
    }
    return belowStressMinutesWorst > 0
      ? [`${bench} is below its stress floor for ${upToWords(belowStressMinutesWorst)}: growth slows.`]
      : [];
  });
};

/** Said where a reader would find two times of wilting in one output. */
const DRY_SIDE =
  '; they count on the dry side of the doubt, so a time of wilting in them lies before the one above';

const alarms = (rehearsal: Rehearsal, columns: number): readonly string[] => {
  const raised = centralOf(rehearsal).entries.flatMap((entry) =>
    entry.kind === 'alarm-raised' ? [`${whenText(rehearsal, entry.at)}  ${entry.text}`] : [],
  );
  const wilts = benchReports(rehearsal).some(({ mayWiltFromMillis }) => mayWiltFromMillis !== null);
  return raised.length === 0
    ? []
    : [
        '',
        wrapped(`Alarms of the central run${wilts ? DRY_SIDE : ''}:`, columns),
        ...raised.map((line) => wrapped(line, columns, '13:30  '.length)),
      ];
};

/** The rehearsal for a person at a terminal of so many columns. */
export const rehearsalText = (rehearsal: Rehearsal, columns: number): string => {
  const sentences = (lines: readonly string[]): readonly string[] =>
    lines.map((line) => wrapped(line, columns));
  const [legend = '', ...chart] = dayChart(rehearsal, columns);
  const table = benchTable(rehearsal, columns);
  return [
    ...sentences(heading(rehearsal)),
    '',
    ...sentences([verdictText(rehearsal), ...thirst(rehearsal), ...rehearsal.advice]),
    '',
    ...table.slice(0, -1),
    ...sentences(table.slice(-1)),
    '',
    ...sentences(totals(rehearsal)),
    ...alarms(rehearsal, columns),
    '',
    ...sentences([legend]),
    ...chart,
    '',
    ...sentences([...oxygenText(rehearsal), ...hangsOnText(rehearsal), RESTS_ON]),
  ].join('\n');
};
