import { itemAt } from '../../src/units/assertion.ts';
import type { Band } from '../simulated-shed.ts';
import { benchReports, whenText, type BenchReport, type Rehearsal } from './rehearsal.ts';
import { spanWords } from './rehearsal-verdict.ts';

/** What the columns beside the bench names take at most. */
const BESIDE_NAME = 76;
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
const timeLeft = ({ low, middle }: Band): string =>
  `${spanWords(Math.floor(low))} (${spanWords(Math.floor(middle))})`;

const ifItFailed = ({ whatIf }: BenchReport): readonly string[] =>
  whatIf === null
    ? ['–', '–', '–']
    : [
        timeLeft(whatIf.timeLeftMinutes),
        whatIf.timeLeftWorstIfPumpFailsAt,
        whatIf.oneMissMarginPoints === null ? '–' : triple(whatIf.oneMissMarginPoints, signed, ' – '),
      ];

/** One line for each bench; with scripted faults, when it may wilt instead of what a further failure would do. */
export const benchTable = (rehearsal: Rehearsal, columns: number): readonly string[] => {
  const faulty = rehearsal.faults.length > 0;
  const nameMax = Math.max(NAME_MIN, columns - BESIDE_NAME);
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
        ...(faulty ? [wilts(bench)] : ifItFailed(bench)),
      ]),
    ]),
    faulty
      ? 'Of 5, 50 and 95 % of all runs; oxygen in mg/L. "May wilt" is the worst of all runs.'
      : 'Of 5, 50 and 95 % of all runs; oxygen in mg/L. Time left is what 5 % of the runs undercut (in brackets the middle), with the pump dead from the worst moment of all runs on. Margin: points of held water above the wilt floor when the worst flood is missed.',
  ];
};
