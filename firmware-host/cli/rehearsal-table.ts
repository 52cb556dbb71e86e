import { itemAt } from '../../src/units/assertion.ts';
import { benchReports, whenText, type BenchReport, type Rehearsal } from './rehearsal.ts';
import { spanWords } from './rehearsal-verdict.ts';

/** What the columns beside the bench names take at most. */
const BESIDE_NAME = 72;
const NAME_MIN = 8;

/** A name that fits, its middle left out: benches often differ in their last characters. */
export const shortName = (name: string, length: number): string => {
  if (name.length <= length) return name;
  const tail = Math.floor((length - 1) / 2);
  return `${name.slice(0, length - 1 - tail)}…${name.slice(name.length - tail)}`;
};

const aligned = (rows: readonly (readonly string[])[]): readonly string[] => {
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

/** Whole points with their sign, to the dry side. */
const signed = (points: number | null): string => {
  if (points === null) return '–';
  const whole = Math.floor(points);
  return whole < 0 ? `−${-whole}` : `+${whole}`;
};

const held = (bench: BenchReport): string =>
  `${Math.floor(bench.lowestHeldPercent)} % (${Math.floor(bench.lowestHeldPercentWorst)})`;
const warmest = (bench: BenchReport): string =>
  `${bench.warmestWaterCelsius.toFixed(0)} (${bench.warmestWaterCelsiusWorst.toFixed(0)})`;

const ifItFailed = ({ whatIf }: BenchReport): readonly string[] =>
  whatIf === null
    ? ['–', '–']
    : [
        `${spanWords(whatIf.timeLeftMinutes)} (${spanWords(whatIf.timeLeftMinutesWorst)}) ${whatIf.timeLeftWorstIfPumpFailsAt}`,
        `${signed(whatIf.oneMissMarginPoints)} (${signed(whatIf.oneMissMarginPointsWorst)})`,
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
      ['', 'lowest', '', 'longest', ...(faulty ? ['may wilt'] : ['time left if the', 'one-miss']), 'warmest'],
      ['', 'held', 'at', 'rest', ...(faulty ? ['from'] : ['pump fails worst, at', 'margin']), 'water °C'],
      ...reports.map((bench) => [
        shortName(bench.bench, nameMax),
        held(bench),
        bench.lowestHeldAt,
        spanWords(bench.longestRestMinutes),
        ...(faulty ? [wilts(bench)] : ifItFailed(bench)),
        warmest(bench),
      ]),
    ]),
    faulty
      ? 'In brackets, and for "may wilt", the worst of all runs.'
      : 'In brackets the worst of all runs. Margin: points of held water above the wilt floor when the worst flood is missed.',
  ];
};
