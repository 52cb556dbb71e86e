import { itemAt } from '../../src/units/assertion.ts';
import type { Band } from '../simulated-shed.ts';
import { benchReports, whenText, type BenchReport, type Rehearsal } from './rehearsal.ts';
import { spanWords } from './rehearsal-verdict.ts';

/** What the columns beside the bench names take at most. */
const BESIDE_NAME = 84;
/** Of that the middle of the time left, which a narrow terminal goes without. */
const MIDDLE = ' (23 h 59 min)'.length;
const NAME_MIN = 8;

/** A name that fits, its middle left out: benches often differ in their last characters. */
export const shortName = (name: string, length: number): string => {
  if (name.length <= length) return name;
  const tail = Math.floor((length - 1) / 2);
  return `${name.slice(0, length - 1 - tail)}…${name.slice(name.length - tail)}`;
};

export const aligned = (rows: readonly (readonly string[])[]): readonly string[] => {
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

/** `48–61–70`: of 5, 50 and 95 % of the runs; one figure where they are all the same. */
const triple = ({ low, middle, high }: Band, words: (value: number) => string, between = '–'): string => {
  const said = [low, middle, high].map(words);
  return new Set(said).size === 1 ? (said[0] ?? '') : said.join(between);
};

/** Whole points with their sign, to the dry side. */
const signed = (points: number): string => {
  const whole = Math.floor(points);
  return whole < 0 ? `−${-whole}` : `+${whole}`;
};

const held = ({ lowestHeldPercent }: BenchReport): string =>
  triple(lowestHeldPercent, (percent) => String(Math.floor(percent)));
const oxygen = ({ lowestOxygenMilligramsPerLitre }: BenchReport): string =>
  triple(lowestOxygenMilligramsPerLitre, (milligrams) => (Math.floor(milligrams * 10) / 10).toFixed(1));
const warmest = ({ warmestWaterCelsius }: BenchReport): string =>
  triple(warmestWaterCelsius, (celsius) => celsius.toFixed(0));

/** The pessimistic edge first: what a person would have to reckon with. */
const timeLeft = ({ low, middle }: Band, withMiddle: boolean): string => {
  const edge = spanWords(Math.floor(low));
  const usual = spanWords(Math.floor(middle));
  return withMiddle && usual !== edge ? `${edge} (${usual})` : edge;
};

const ifItFailed = ({ whatIf }: BenchReport, withMiddle: boolean): readonly string[] =>
  whatIf === null
    ? ['–', '–', '–']
    : [
        timeLeft(whatIf.timeLeftMinutes, withMiddle),
        whatIf.timeLeftWorstIfPumpFailsAt,
        whatIf.oneMissMarginPoints === null ? '–' : triple(whatIf.oneMissMarginPoints, signed, ' – '),
      ];

/** What the columns mean. */
const legend = ({ faults, outcomes }: Rehearsal, withMiddle: boolean): string => {
  const single = outcomes.length === 1;
  const figures = `${single ? 'Of the one run' : 'Of 5, 50 and 95 % of all runs'}; oxygen in mg/L.`;
  if (faults.length > 0) return single ? figures : `${figures} "May wilt" is the worst of all runs.`;
  const undercut = single
    ? ''
    : ` is what 5 % of the runs undercut${withMiddle ? ' (in brackets the middle)' : ''}`;
  return `${figures} Time left${undercut}${single ? ':' : ','} with the pump dead from the worst moment${single ? '' : ' of all runs'} on, which "fails at" tells. Margin: points of held water above the wilt floor when the worst flood is missed.`;
};

/** One line for each bench; with scripted faults, when it may wilt instead of what a further failure would do. */
export const benchTable = (rehearsal: Rehearsal, columns: number): readonly string[] => {
  const faulty = rehearsal.faults.length > 0;
  const withMiddle = columns >= NAME_MIN + BESIDE_NAME;
  const nameMax = Math.max(NAME_MIN, columns - (withMiddle ? BESIDE_NAME : BESIDE_NAME - MIDDLE));
  const reports = benchReports(rehearsal);
  const wilts = ({ mayWiltFromMillis: from }: BenchReport): string =>
    from === null ? '–' : whenText(rehearsal, from);
  return [
    ...aligned([
      ['', 'lowest', 'lowest', 'warmest', ...(faulty ? ['may wilt'] : ['time left,', 'fails', 'one-miss'])],
      ['', 'held %', 'oxygen', 'water °C', ...(faulty ? ['from'] : ['pump dead', 'at', 'margin'])],
      ...reports.map((bench) => [
        shortName(bench.bench, nameMax),
        held(bench),
        oxygen(bench),
        warmest(bench),
        ...(faulty ? [wilts(bench)] : ifItFailed(bench, withMiddle)),
      ]),
    ]),
    legend(rehearsal, withMiddle),
  ];
};
