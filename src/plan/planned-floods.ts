import type { DayPart, Farm } from '../farm/farm.ts';
import { MILLIS_PER_MINUTE, wallMillis, type WallMillis } from '../time/instant.ts';
import { itemAt } from '../units/assertion.ts';
import { dayView, isByDay, shows, spanAt, type DayView } from './day-view.ts';
import { movedFloodMinutes, movedRestMinutes, plannedRestMinutes } from './pace.ts';

/** What a day plan meets in each minute of a stretch whose air is known: all that its pace hangs on but the plan itself. */
export interface PlanGround {
  /** Place of the day part in the plan. */
  readonly part: Uint8Array;
  /** How long that part is as a whole. */
  readonly partMinutes: Float64Array;
  /** 1 by day, 0 by night. */
  readonly byDay: Uint8Array;
  readonly celsius: Float64Array;
}

/** A stretch of whole minutes. */
export interface Stretch {
  readonly start: WallMillis;
  readonly minutes: number;
}

export const planGround = (
  farm: Farm,
  { start, minutes }: Stretch,
  celsiusAt: (epochMillis: number) => number,
): PlanGround => {
  const ground = {
    part: new Uint8Array(minutes),
    partMinutes: new Float64Array(minutes),
    byDay: new Uint8Array(minutes),
    celsius: new Float64Array(minutes),
  };
  let view: DayView = dayView(farm, start);
  for (let minute = 0; minute < minutes; minute += 1) {
    const wall = wallMillis(start + minute * MILLIS_PER_MINUTE);
    if (!shows(view, wall)) view = dayView(farm, wall);
    const span = spanAt(view, wall);
    ground.part[minute] = farm.dayPlan.indexOf(span.part);
    ground.partMinutes[minute] = (span.wholeEnd - span.wholeStart) / MILLIS_PER_MINUTE;
    ground.byDay[minute] = isByDay(view, wall) ? 1 : 0;
    ground.celsius[minute] = celsiusAt(wall);
  }
  return ground;
};

/** Floods one after the other, minutes since the start of a stretch: begin and end of each. */
export interface Floods {
  readonly begins: Float64Array;
  readonly ends: Float64Array;
}

interface MinutePace {
  rest: number;
  flood: number;
  shortest: number;
  longest: number;
}

/**
 * The floods that a plan gives by itself: one at the start, then each when the turn of `plan/schedule` is full or the longest rest is over,
 * never inside the shortest rest. What the belief in dry roots would add is left out. The parts of the plan must begin and end as
 * those of the farm that the ground was made for; their paces may differ, and so may the temperature rule.
 */
export const plannedFloods = (farm: Farm, ground: PlanGround): Floods => {
  const { restMinutesByDay, restMinutesByNight } = farm.bounds;
  const minutes = ground.part.length;
  const begins: number[] = [];
  const ends: number[] = [];
  const pace: MinutePace = { rest: 0, flood: 0, shortest: 0, longest: 0 };
  const paceAt = (minute: number): MinutePace => {
    const part: DayPart = itemAt(farm.dayPlan, ground.part[minute] ?? 0);
    const ends = ground.byDay[minute] === 1 ? restMinutesByDay : restMinutesByNight;
    const celsius = ground.celsius[minute] ?? NaN;
    const planned = plannedRestMinutes(part, ground.partMinutes[minute] ?? NaN);
    pace.rest = movedRestMinutes(farm, planned, ends, celsius);
    pace.flood = movedFloodMinutes(farm, part.floodMinutes, celsius);
    pace.shortest = ends.shortest;
    pace.longest = ends.longest;
    return pace;
  };
  let turn = 1;
  let lastEnd = -Infinity;
  let at = 0;
  while (at < minutes) {
    const minute = Math.floor(at);
    const { rest, flood, shortest, longest } = paceAt(minute);
    const due = Math.min(at + (1 - turn) * (rest + flood), lastEnd + longest);
    const begin = Math.max(at, due, lastEnd + shortest);
    if (begin >= minute + 1) {
      turn = Math.min(1, turn + (minute + 1 - at) / (rest + flood));
      at = minute + 1;
      continue;
    }
    begins.push(begin);
    lastEnd = begin + flood;
    ends.push(lastEnd);
    // The turn runs on through the flood, at the pace of each minute of it.
    turn = 0;
    at = begin;
    while (at < lastEnd && at < minutes) {
      const next = Math.min(Math.floor(at) + 1, lastEnd);
      const now = paceAt(Math.floor(at));
      turn += (next - at) / (now.rest + now.flood);
      at = next;
    }
    turn = Math.min(1, turn);
  }
  return { begins: Float64Array.from(begins), ends: Float64Array.from(ends) };
};
