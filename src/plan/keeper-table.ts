import { YEAR_OF_JUDGEMENT } from '../farm/day-laps.ts';
import type { Farm } from '../farm/farm.ts';
import { tableProblem, TABLE_RANGES, type KeeperPart, type KeeperTable } from '../farm/table-bytes.ts';
import { MILLIS_PER_MINUTE, wallMillis, type WallMillis } from '../time/instant.ts';
import { localClockText, localDayOn } from '../time/local-day.ts';
import { bounded } from '../units/bounded.ts';
import { dayView, isByDay, type DayView } from './day-view.ts';
import { asParts, fewEnough, filled, wetter, type Step } from './keeper-steps.ts';
import { paceNow } from './pace.ts';

export { readTable, tableBytes, type KeeperPart, type KeeperTable } from '../farm/table-bytes.ts';

/** The day plan of a date as a board can keep it, or why it cannot. */
export type KeeperPlan =
  | {
      readonly kind: 'table';
      readonly table: KeeperTable;
      /** What the table could not take over as the plan has it. */
      readonly says: readonly string[];
    }
  | { readonly kind: 'impossible'; readonly why: string };

/** Minutes of the clock: a part that ends with the sun would else move every day. */
const STEP_MINUTES = 5;
const STEPS_PER_DAY = 1440 / STEP_MINUTES;
/** Rests by number of floods move by seconds with the sun, too. */
const REST_GRAIN_SECONDS = 30;
/** A host may be late by a retried flood or two before its pump is taken from it. */
const LATE_SECONDS = 900;
/** As the host begins with, before it has learned better: 8 min. */
const RETURN_LAG_SECONDS = 480;

/** By day as hot as the hot day gets, by night as warm as it is on average. */
const hotDayCelsius = ({ hotDay }: Farm, byDay: boolean): number =>
  byDay ? hotDay.maxCelsius : (hotDay.minCelsius + hotDay.maxCelsius) / 2;

/** Whole seconds, towards wet, but no shorter than the plan's shortest rest. */
const restSeconds = (minutes: number, shortestMinutes: number): number => {
  const seconds = Math.floor(minutes * 60 + 1e-6);
  const coarse = Math.floor(seconds / REST_GRAIN_SECONDS) * REST_GRAIN_SECONDS;
  const kept = coarse >= shortestMinutes * 60 ? coarse : seconds;
  return bounded(kept, TABLE_RANGES.rest.least, TABLE_RANGES.rest.most);
};

/**
 * What the plan does at an instant on the hot day, or at the reference where that is hotter; and at the reference. A plan
 * whose floods grow longer as it gets cooler has its longest at the cooler of the two.
 */
const stepAt = (farm: Farm, view: DayView, wall: WallMillis): Step => {
  const paceAt = (celsius: number): ReturnType<typeof paceNow> =>
    paceNow(farm, view, wall, { quality: 'good', value: celsius, ageSeconds: 0 });
  const { referenceCelsius } = farm.temperatureRule;
  const celsius = hotDayCelsius(farm, isByDay(view, wall));
  const hot = paceAt(Math.max(celsius, referenceCelsius));
  const cool = paceAt(referenceCelsius);
  const rest = restSeconds(hot.restMinutes, hot.shortestRestMinutes);
  const floodMinutes = Math.max(hot.floodMinutes, cool.floodMinutes, paceAt(celsius).floodMinutes);
  return {
    restSeconds: rest,
    coolRestSeconds: Math.max(rest, restSeconds(cool.restMinutes, cool.shortestRestMinutes)),
    floodSeconds: Math.min(Math.ceil(floodMinutes * 60 - 1e-6), Math.floor(farm.pump.longestOnMinutes * 60)),
  };
};

const minuteOnClock = (wall: WallMillis, timeZone: string): number => {
  const [hours = 0, minutes = 0] = localClockText(wall, timeZone).split(':').map(Number);
  return hours * 60 + minutes;
};

/**
 * The beginning of every step, and every instant between two at which the plan turns to something else. Clocks change
 * by quarters of an hour, so a step begins on the clock when it begins in the day.
 */
const instantsOf = ({ day, spans, sunrise, sunset }: DayView): readonly WallMillis[] => {
  const stepMillis = STEP_MINUTES * MILLIS_PER_MINUTE;
  const steps = Math.ceil((day.end - day.start) / stepMillis);
  const turns = [...spans.map(({ start }) => start), sunrise, sunset];
  return [
    ...Array.from({ length: steps }, (_, step) => wallMillis(day.start + step * stepMillis)),
    ...turns.filter((wall) => wall >= day.start && wall < day.end),
  ];
};

/**
 * The plan by the local clock in steps of five minutes, each as wet as its wettest moment on any of the dates. An hour
 * that comes twice takes the wetter of the two; one that the clocks skip is filled from its neighbours.
 */
const stepsOf = (farm: Farm, dates: readonly string[]): readonly Step[] => {
  const { timeZone } = farm.place;
  const steps: (Step | null)[] = Array.from({ length: STEPS_PER_DAY }, () => null);
  for (const date of dates) {
    const view = dayView(farm, localDayOn(date, timeZone).start);
    for (const wall of instantsOf(view)) {
      const place = Math.floor(minuteOnClock(wall, timeZone) / STEP_MINUTES);
      const step = stepAt(farm, view, wall);
      const before = steps[place] ?? null;
      steps[place] = before === null ? step : wetter(before, step);
    }
  }
  return filled(steps);
};

const longestRestSeconds = ({ bounds }: Farm, parts: readonly KeeperPart[]): number => {
  const bound = Math.max(bounds.restMinutesByDay.longest, bounds.restMinutesByNight.longest) * 60;
  const longest = Math.max(bound, ...parts.map(({ coolRestSeconds }) => coolRestSeconds));
  return Math.min(TABLE_RANGES.longestRestMost, Math.ceil(longest) + LATE_SECONDS);
};

const joined = (stretches: number, parts: number, of: string): readonly string[] =>
  stretches > parts
    ? [
        `The plan of ${of} has ${stretches} stretches with a pace of their own, counting day and night; a board holds ${parts}. Neighbours were joined, each pair at the shorter rest and the longer flood.`,
      ]
    : [];

/** The board alone starts the pump at most twice in ten minutes: docs/board-protocol.md, "Floods of the keeper". */
const SHORTEST_TURN_SECONDS = 300;

const tooQuick = (parts: readonly KeeperPart[]): readonly string[] => {
  const turns = parts.map(({ restSeconds: rest, floodSeconds }) => rest + floodSeconds);
  const shortest = Math.min(...turns);
  return shortest >= SHORTEST_TURN_SECONDS
    ? []
    : [
        `A rest and its flood take only ${shortest} s at the hottest. Alone the board floods twice in ten minutes at most, so it would be drier than the plan then.`,
      ];
};

const compiled = (farm: Farm, dates: readonly string[], of: string): KeeperPlan => {
  const exact = asParts(stepsOf(farm, dates), STEP_MINUTES);
  const parts = fewEnough(exact);
  const table: KeeperTable = {
    parts,
    longestRestSeconds: longestRestSeconds(farm, parts),
    returnLagSeconds: RETURN_LAG_SECONDS,
  };
  const why = tableProblem(table, Math.floor(farm.pump.longestOnMinutes * 60));
  if (why !== null) return { kind: 'impossible', why: `the day plan of ${of} does not fit a board: ${why}` };
  return { kind: 'table', table, says: [...joined(exact.length, parts.length, of), ...tooQuick(parts)] };
};

/**
 * The day plan of a date, compiled for the board: as on a hot day, and wetter wherever it cannot be said exactly.
 * @throws RangeError when `date` is not a calendar date
 */
export const keeperTable = (farm: Farm, date: string): KeeperPlan => compiled(farm, [date], date);

const DAYS = 366;

/**
 * At each minute the wettest of any day of the year: for the flash of a board, which may have to serve in another season
 * than that in which it was flashed. In other years the sun is about a minute off.
 */
export const keeperTableOfYear = (farm: Farm): KeeperPlan =>
  compiled(
    farm,
    Array.from({ length: DAYS }, (_, day) =>
      new Date(Date.UTC(YEAR_OF_JUDGEMENT, 0, 1 + day)).toISOString().slice(0, 10),
    ),
    'the whole year',
  );
