import type { DayPart, Farm } from '../../src/farm/farm.ts';
import { sunEvents } from '../../src/physics/sun.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { localClockInstant, localDayOf, type LocalDay } from '../../src/time/local-day.ts';
import type { Stretch } from './record.ts';
import { MINUTE } from './stretches.ts';

const DAY = 24 * 60 * MINUTE;

/** A part of the day as it truly falls on one day, from its first moment to its last. */
interface PartOfDay extends Stretch {
  readonly part: DayPart;
}

/** What a farm file says of the whole of a run: which part of the day holds when, and when the sun is up. */
export interface DayPlan {
  readonly parts: readonly PartOfDay[];
  readonly daylight: readonly Stretch[];
}

/** One rest and its flood, minutes. */
export interface Turn {
  readonly rest: number;
  readonly flood: number;
}

/**
 * Read from the farm file anew, with nothing of the schedule engine: each part begins where its boundary lies on each local
 * day, and ends where the next one begins.
 */
export const dayPlanOf = ({ dayPlan, place }: Farm, { fromMillis, untilMillis }: Stretch): DayPlan => {
  const days: LocalDay[] = [];
  for (let at = fromMillis - 2 * DAY; at <= untilMillis + 2 * DAY; at += DAY)
    days.push(localDayOf(wallMillis(at), place.timeZone));
  const suns = days.map(({ start, end }) => sunEvents({ ...place, noonNearEpochMillis: (start + end) / 2 }));
  const begins = days
    .flatMap((day, place) =>
      dayPlan.map((part) => ({
        part,
        fromMillis:
          part.from.kind === 'clock'
            ? localClockInstant(day, part.from.minuteOfDay)
            : (suns[place]?.[part.from.event] ?? NaN) + part.from.offsetMinutes * MINUTE,
      })),
    )
    .sort((one, other) => one.fromMillis - other.fromMillis);
  return {
    parts: begins
      .slice(0, -1)
      .map((begin, place) => ({ ...begin, untilMillis: begins[place + 1]?.fromMillis ?? begin.fromMillis })),
    daylight: suns.map(({ sunrise, sunset }) => ({ fromMillis: sunrise, untilMillis: sunset })),
  };
};

const within = ({ fromMillis, untilMillis }: Stretch, atMillis: number): boolean =>
  fromMillis <= atMillis && atMillis < untilMillis;

const bounded = (minutes: number, { shortest, longest }: { shortest: number; longest: number }): number =>
  Math.min(longest, Math.max(shortest, minutes));

/** The rest that a part has before it gets hotter or cooler, min. */
const plannedRest = ({ part: { pace, floodMinutes }, fromMillis, untilMillis }: PartOfDay): number =>
  pace.kind === 'rest' ? pace.restMinutes : (untilMillis - fromMillis) / MINUTE / pace.floods - floodMinutes;

/** The longest rest that the plan has for any moment of a stretch, before it gets hotter or cooler, min. */
export const longestPlannedRest = ({ parts }: DayPlan, { fromMillis, untilMillis }: Stretch): number =>
  Math.max(
    ...parts
      .filter((part) => part.fromMillis <= untilMillis && fromMillis <= part.untilMillis)
      .map(plannedRest),
  );

/** The turn of a part in this air. Where the farm file lets rests be stretched they may grow to the longest. */
const turnOf = (farm: Farm, partOfDay: PartOfDay, time: 'day' | 'night', celsius: number): Turn => {
  const { bounds, temperatureRule, stretch, pump } = farm;
  const ends = time === 'day' ? bounds.restMinutesByDay : bounds.restMinutesByNight;
  const beyond = (celsius - temperatureRule.referenceCelsius) / 100;
  const rest = plannedRest(partOfDay) * Math.max(0, 1 + temperatureRule.restPercentPerDegree * beyond);
  const percent = temperatureRule.floodPercentPerDegree;
  const flood = partOfDay.part.floodMinutes * (1 + percent * beyond);
  return {
    rest: stretch === 'never' ? bounded(rest, ends) : ends.longest,
    flood: Math.min(pump.longestOnMinutes, percent === 0 ? flood : bounded(flood, bounds.floodMinutes)),
  };
};

/** Whether the sun is up all through a stretch. */
export const isLightIn = ({ daylight }: DayPlan, { fromMillis, untilMillis }: Stretch): boolean =>
  daylight.some((day) => day.fromMillis <= fromMillis && untilMillis <= day.untilMillis);

/** The turn that the plan gives at a moment in this air. */
export const turnAt = (
  farm: Farm,
  { parts, daylight }: DayPlan,
  atMillis: number,
  celsius: number,
): readonly Turn[] =>
  parts
    .filter((part) => within(part, atMillis))
    .map((part) =>
      turnOf(farm, part, daylight.some((day) => within(day, atMillis)) ? 'day' : 'night', celsius),
    );

/** Every turn that the plan could give in this air to a host that takes the time of day for another. */
export const turnsAtAnyTime = (farm: Farm, { parts }: DayPlan, celsius: number): readonly Turn[] =>
  parts
    .slice(0, 2 * farm.dayPlan.length)
    .flatMap((part) => [turnOf(farm, part, 'day', celsius), turnOf(farm, part, 'night', celsius)]);
