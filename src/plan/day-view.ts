import { partSpans, type PartSpan } from '../farm/day-boundaries.ts';
import type { Farm } from '../farm/farm.ts';
import { sunEvents } from '../physics/sun.ts';
import { wallMillis, type WallMillis } from '../time/instant.ts';
import { localDayOf, type LocalDay } from '../time/local-day.ts';
import { itemAt } from '../units/assertion.ts';

/** One local day as the schedule sees it; worked out once a day. */
export interface DayView {
  readonly day: LocalDay;
  readonly spans: readonly PartSpan[];
  readonly sunrise: WallMillis;
  readonly sunset: WallMillis;
}

export const dayView = (farm: Farm, wall: WallMillis): DayView => {
  const day = localDayOf(wall, farm.place.timeZone);
  const sun = sunEvents({
    latitudeDegrees: farm.place.latitudeDegrees,
    longitudeDegrees: farm.place.longitudeDegrees,
    noonNearEpochMillis: day.start + (day.end - day.start) / 2,
  });
  return {
    day,
    spans: partSpans(farm.dayPlan, farm.place, day),
    sunrise: wallMillis(sun.sunrise),
    sunset: wallMillis(sun.sunset),
  };
};

export const shows = (view: DayView, wall: WallMillis): boolean =>
  wall >= view.day.start && wall < view.day.end;

export const spanAt = (view: DayView, wall: WallMillis): PartSpan =>
  view.spans.find((span) => wall >= span.start && wall < span.end) ??
  itemAt(view.spans, view.spans.length - 1);

export const isByDay = (view: DayView, wall: WallMillis): boolean =>
  wall >= view.sunrise && wall < view.sunset;
