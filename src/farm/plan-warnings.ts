import { MILLIS_PER_MINUTE } from '../time/instant.ts';
import { localDayOn } from '../time/local-day.ts';
import { bounded } from '../units/bounded.ts';
import { partSpans } from './day-boundaries.ts';
import type { DayPart, Farm } from './farm.ts';
import { warnWhen, type FarmWarning } from './warning.ts';

/** Water needs some 5 min to the far end of a dry channel; beyond 40 min a flood adds little but wet roots. */
const FLOOD_MINUTES = { least: 5, most: 40 };
const MINUTES_PER_HOUR = 60;

/** Minutes that each part lasts on a day, by place in the plan; a part without time is absent. */
const partMinutes = (farm: Farm, today: string): ReadonlyMap<DayPart, number> =>
  new Map(
    partSpans(farm.dayPlan, farm.place, localDayOn(today, farm.place.timeZone)).map((span) => [
      span.part,
      (span.wholeEnd - span.wholeStart) / MILLIS_PER_MINUTE,
    ]),
  );

/** From the start of one flood to the start of the next at the heat of the hot day. */
const hotCycleMinutes = ({ bounds, hotDay, temperatureRule }: Farm, part: DayPart, lasts: number): number => {
  const hotter = hotDay.maxCelsius - temperatureRule.referenceCelsius;
  const planned =
    part.pace.kind === 'rest' ? part.pace.restMinutes : lasts / part.pace.floods - part.floodMinutes;
  const rest = bounded(
    planned * (1 + (temperatureRule.restPercentPerDegree / 100) * Math.max(0, hotter)),
    Math.min(bounds.restMinutesByDay.shortest, bounds.restMinutesByNight.shortest),
    Math.max(bounds.restMinutesByDay.longest, bounds.restMinutesByNight.longest),
  );
  return rest + part.floodMinutes;
};

const floodWarnings = (part: DayPart, place: number): readonly FarmWarning[] => {
  const path = ['dayPlan', place, 'floodMinutes'];
  return [
    ...warnWhen(part.floodMinutes > FLOOD_MINUTES.most, {
      path,
      says: `“${part.name}”: a flood of ${part.floodMinutes} min is long; ${FLOOD_MINUTES.least} to ${FLOOD_MINUTES.most} min is usual.`,
      advice: 'Check the unit. Roots need the rest between floods as well.',
    }),
    ...warnWhen(part.floodMinutes < FLOOD_MINUTES.least, {
      path,
      says: `“${part.name}”: a flood of ${part.floodMinutes} min may end before water reaches the far end.`,
      advice: 'Watch one flood: how many minutes until water runs back at full strength?',
    }),
  ];
};

const fitWarnings = (farm: Farm, part: DayPart, place: number, lasts: number): readonly FarmWarning[] => {
  if (part.pace.kind === 'rest') return [];
  const { restMinutesByDay, restMinutesByNight } = farm.bounds;
  const rest = lasts / part.pace.floods - part.floodMinutes;
  const shortest = Math.min(restMinutesByDay.shortest, restMinutesByNight.shortest);
  const longest = Math.max(restMinutesByDay.longest, restMinutesByNight.longest);
  const path = ['dayPlan', place, 'floods'];
  const spread = `“${part.name}”: ${part.pace.floods} floods of ${part.floodMinutes} min spread over ${lasts.toFixed(0)} min`;
  return [
    ...warnWhen(rest < shortest, {
      path,
      says: `${spread} leave ${Math.max(0, rest).toFixed(0)} min of rest, less than the shortest of ${shortest} min.`,
      advice: 'The shortest rest wins, so there will be fewer floods. Plan fewer or shorter ones.',
    }),
    ...warnWhen(rest > longest, {
      path,
      says: `${spread} leave ${rest.toFixed(0)} min of rest, more than the longest of ${longest} min.`,
      advice:
        'The longest rest wins, so there will be more floods. Plan more of them, or allow a longer rest.',
    }),
  ];
};

const startWarnings = (farm: Farm, part: DayPart, lasts: number): readonly FarmWarning[] => {
  const cycle = hotCycleMinutes(farm, part, lasts);
  const starts = Math.ceil(MINUTES_PER_HOUR / cycle);
  return warnWhen(starts > farm.bounds.startsPerHour, {
    path: ['bounds', 'startsPerHour'],
    says: `“${part.name}” asks for up to ${starts} starts an hour at ${farm.hotDay.maxCelsius} °C; the limit is ${farm.bounds.startsPerHour}.`,
    advice:
      'The limit wins, and floods would come late in the heat. Raise it if the pump allows, or flood longer.',
  });
};

/** A day plan that its own bounds would bend, judged on one day. */
export const planWarnings = (farm: Farm, today: string): readonly FarmWarning[] => {
  const minutes = partMinutes(farm, today);
  return farm.dayPlan.flatMap((part, place) => {
    const lasts = minutes.get(part);
    return [
      ...floodWarnings(part, place),
      ...(lasts === undefined
        ? []
        : [...fitWarnings(farm, part, place, lasts), ...startWarnings(farm, part, lasts)]),
    ];
  });
};
