import { dayAfter, localClockInstant } from '../../src/time/local-day.ts';
import { axis, lowestBars, stretches } from './chart.ts';
import { centralOf, type Rehearsal } from './rehearsal.ts';
import { shortName } from './rehearsal-table.ts';

/** Columns of the day, widest first: one for every 20, 30 or 60 minutes. */
const COLUMNS = [72, 48, 24] as const;
const NAME_MAX = 27;
const DATES_MAX = 12;
const HOURS = [0, 3, 6, 9, 12, 15, 18, 21] as const;

interface Tick {
  readonly at: number;
  readonly text: string;
}

const hoursOf = ({ day }: Rehearsal): readonly Tick[] =>
  HOURS.map((hour) => ({ at: localClockInstant(day, hour * 60), text: String(hour).padStart(2, '0') }));

/** The beginning of every day, or of every so many where they would stand too close. */
const datesOf = ({ day, days }: Rehearsal): readonly Tick[] => {
  const every = Math.ceil(days / DATES_MAX);
  const ticks: Tick[] = [];
  for (let place = 0, at = day; place < days; place += 1, at = dayAfter(at))
    if (place % every === 0) ticks.push({ at: at.start, text: at.date.slice(8) });
  return ticks;
};

/** Held water of each bench over the day and the floods below it. */
export const dayChart = (rehearsal: Rehearsal, width: number): readonly string[] => {
  const { farm, day, days, endMillis } = rehearsal;
  const { moments, pumpRuns } = centralOf(rehearsal);
  const names = farm.benches.map(({ name }) => shortName(name, NAME_MAX));
  const label = Math.max('floods'.length, ...names.map((name) => name.length)) + 1;
  const columns = COLUMNS.find((count) => label + count <= width) ?? COLUMNS[2];
  const line = (name: string, row: string): string => `${name.padEnd(label)}${row}`.trimEnd();
  const bench = (place: number): string =>
    lowestBars(
      moments.map(({ atMillis, thetas }) => ({ at: atMillis, share: thetas[place] ?? 1 })),
      day.start,
      endMillis,
      columns,
      farm.floors.wilt,
    );
  const floods = pumpRuns.map((run) => ({ from: run.fromMillis, until: run.untilMillis }));
  const ticks = days > 1 ? datesOf(rehearsal) : hoursOf(rehearsal);
  return [
    `Held water through ${days > 1 ? `the ${days} days` : 'the day'} (central run; █ full, ▁ little, × below the wilt floor) and floods`,
    ...names.map((name, place) => line(name, bench(place))),
    line('floods', stretches(floods, day.start, endMillis, columns)),
    line('', axis(ticks, day.start, endMillis, columns)),
  ];
};
