import { sunEvents } from '../physics/sun.ts';
import { MILLIS_PER_MINUTE, wallMillis, type WallMillis } from '../time/instant.ts';
import { dayBefore, localClockInstant, type LocalDay } from '../time/local-day.ts';
import { itemAt } from '../units/assertion.ts';
import type { DayPart } from './farm.ts';
import { lapDaysAfter, lapDaysOf, lapOrderOf, lapStarts, type LapDays, type LapOrder } from './day-laps.ts';
import type { Boundary } from './schema.ts';

/** Where the sun is asked for. The time zone stands in the local day. */
export interface SunPlace {
  readonly latitudeDegrees: number;
  readonly longitudeDegrees: number;
}

/** A piece of one day part inside one local day, and the whole occurrence that it belongs to. */
export interface PartSpan {
  readonly part: DayPart;
  /** Inside the local day: `start` belongs to the piece, `end` to the next one. */
  readonly start: WallMillis;
  readonly end: WallMillis;
  /** The whole stretch, which may begin the day before and end the day after. */
  readonly wholeStart: WallMillis;
  readonly wholeEnd: WallMillis;
}

/** Laps whose parts can touch a day: a boundary lies at most 30 hours from the start of its own day. */
const LAPS_AROUND_A_DAY = 2;

const middleOf = (day: LocalDay): number => day.start + (day.end - day.start) / 2;

/**
 * The instant of a boundary that belongs to the local day. Sun times are those around the solar noon nearest
 * to the middle of the day; with an offset they may lie in the neighbouring day.
 */
export const boundaryInstant = (boundary: Boundary, day: LocalDay, place: SunPlace): WallMillis => {
  if (boundary.kind === 'clock') return localClockInstant(day, boundary.minuteOfDay);
  const sun = sunEvents({
    latitudeDegrees: place.latitudeDegrees,
    longitudeDegrees: place.longitudeDegrees,
    noonNearEpochMillis: middleOf(day),
  });
  return wallMillis(Math.round(sun[boundary.event]) + boundary.offsetMinutes * MILLIS_PER_MINUTE);
};

interface KnownOrder {
  readonly latitudeDegrees: number;
  readonly longitudeDegrees: number;
  readonly timeZone: string;
  readonly order: LapOrder;
}

/** The order of a plan hangs on plan and place alone; finding it costs a hundred sunrises, so it is kept. */
const knownOrders = new WeakMap<readonly DayPart[], KnownOrder>();

const orderOf = (
  dayPlan: readonly DayPart[],
  { latitudeDegrees, longitudeDegrees }: SunPlace,
  timeZone: string,
): LapOrder => {
  const known = knownOrders.get(dayPlan);
  if (
    known?.latitudeDegrees === latitudeDegrees &&
    known.longitudeDegrees === longitudeDegrees &&
    known.timeZone === timeZone
  ) {
    return known.order;
  }
  const order = lapOrderOf(
    dayPlan.map((part) => part.from),
    timeZone,
    (boundary, day) => boundaryInstant(boundary, day, { latitudeDegrees, longitudeDegrees }),
  );
  knownOrders.set(dayPlan, { latitudeDegrees, longitudeDegrees, timeZone, order });
  return order;
};

/** The laps that can touch a day, in order. */
const lapsAround = (day: LocalDay): readonly LapDays[] => {
  let first = day;
  for (let step = 0; step < LAPS_AROUND_A_DAY; step += 1) first = dayBefore(first);
  const laps = [lapDaysOf(first)];
  while (laps.length <= 2 * LAPS_AROUND_A_DAY) laps.push(lapDaysAfter(itemAt(laps, laps.length - 1)));
  return laps;
};

/**
 * The day parts of one local day, in order, covering [day.start, day.end) without gap or overlap. A part
 * that runs over midnight gives two pieces. A part that the sun leaves no time for (polar summer and winter)
 * is absent. Trusts a day plan that the parser has accepted; where the sun of another year would turn two
 * boundaries round by some minutes, the earlier part wins and the later one is shortened.
 */
export const partSpans = (
  dayPlan: readonly DayPart[],
  place: SunPlace,
  day: LocalDay,
): readonly PartSpan[] => {
  const boundaries = dayPlan.map((part) => part.from);
  const instantOf = (boundary: Boundary, on: LocalDay): WallMillis => boundaryInstant(boundary, on, place);
  const order = orderOf(dayPlan, place, day.timeZone);
  const starts = lapsAround(day).flatMap((days) => lapStarts(boundaries, order, days, instantOf));
  const spans: PartSpan[] = [];
  let wholeStart = itemAt(starts, 0);
  for (let turn = 0; turn + 1 < starts.length; turn += 1) {
    const wholeEnd = wallMillis(Math.max(wholeStart, itemAt(starts, turn + 1)));
    const start = wallMillis(Math.max(wholeStart, day.start));
    const end = wallMillis(Math.min(wholeEnd, day.end));
    if (start < end) {
      spans.push({ part: itemAt(dayPlan, turn % dayPlan.length), start, end, wholeStart, wholeEnd });
    }
    wholeStart = wholeEnd;
  }
  return spans;
};
