import { localClockInstant } from '../../src/time/local-day.ts';
import { axis, lowestBars, stretches } from './chart.ts';
import { centralOf, type Rehearsal } from './rehearsal.ts';
import { shortName } from './rehearsal-table.ts';

/** Columns of the day, widest first: one for every 20, 30 or 60 minutes. */
const COLUMNS = [72, 48, 24] as const;
const NAME_MAX = 27;
const HOURS = [0, 3, 6, 9, 12, 15, 18, 21] as const;

/** Held water of each bench over the day and the floods below it. */
export const dayChart = (rehearsal: Rehearsal, width: number): readonly string[] => {
  const { farm, day } = rehearsal;
  const { trace, pumpRuns } = centralOf(rehearsal);
  const names = farm.benches.map(({ name }) => shortName(name, NAME_MAX));
  const label = Math.max('floods'.length, ...names.map((name) => name.length)) + 1;
  const columns = COLUMNS.find((count) => label + count <= width) ?? COLUMNS[2];
  const line = (name: string, row: string): string => `${name.padEnd(label)}${row}`.trimEnd();
  const bench = (place: number): string =>
    lowestBars(
      trace.map(({ atMillis, thetas }) => ({ at: atMillis, share: thetas[place] ?? 1 })),
      day.start,
      day.end,
      columns,
      farm.floors.wilt,
    );
  const floods = pumpRuns.map((run) => ({ from: run.fromMillis, until: run.untilMillis }));
  const hours = HOURS.map((hour) => ({
    at: localClockInstant(day, hour * 60),
    text: String(hour).padStart(2, '0'),
  }));
  return [
    'Held water through the day (central run; █ full, ▁ little, × below the wilt floor) and floods',
    ...names.map((name, place) => line(name, bench(place))),
    line('floods', stretches(floods, day.start, day.end, columns)),
    line('', axis(hours, day.start, day.end, columns)),
  ];
};
