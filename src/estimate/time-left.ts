import type { Farm } from '../farm/farm.ts';
import { itemAt } from '../units/assertion.ts';
import { wallAfterMinutes, type WallMillis } from '../time/instant.ts';
import { dried, dryEdgeLossPerMinute, lossPerMinute, type Belief } from './belief.ts';
import type { BenchFacts } from './bench-facts.ts';
import { hotDayUptake, type ReferenceDay } from './reference-day.ts';

const STEP_MINUTES = 5;
/** Nobody plans by what would happen two days from now. */
const HORIZON_MINUTES = 24 * 60;
/** A day may be hotter than the farm's hot day, but a thermometer may also be wrong. */
const HOTTER_SHARE_MAX = 2;

/** How long until the first bench may pass its wilt floor if no water comes: the dry edge of the doubt. */
export interface TimeLeft {
  /** `HORIZON_MINUTES` when no bench gets there within a day. */
  readonly minutes: number;
  readonly bench: string | null;
  /** How many more may be wilting already, where that one may; not there where none may. */
  readonly others?: number;
}

/** With less than this left a bench may be wilting already. */
export const GONE_MINUTES = 1;

export interface Outlook {
  readonly facts: readonly BenchFacts[];
  readonly day: ReferenceDay;
  /** Uptake now against the hot day's at this hour. */
  readonly hotterShare: number;
}

/** How much hotter than the hot day it is believed to be: never cooler. */
export const believedShare = ({ hotterShare }: Outlook): number =>
  Math.min(HOTTER_SHARE_MAX, Math.max(1, hotterShare));

const minutesToFloor = (
  farm: Farm,
  theta: number,
  facts: BenchFacts,
  outlook: Outlook,
  wall: WallMillis | 'unknown',
): number => {
  const share = believedShare(outlook);
  let left = theta;
  for (let minutes = 0; minutes < HORIZON_MINUTES; minutes += STEP_MINUTES) {
    if (left <= farm.floors.wilt) return minutes;
    const uptake = hotDayUptake(outlook.day, wall === 'unknown' ? wall : wallAfterMinutes(wall, minutes));
    const loss = dryEdgeLossPerMinute(facts, uptake * share);
    const next = dried(left, loss, farm.floors.stress, STEP_MINUTES);
    if (next <= farm.floors.wilt) {
      return minutes + (STEP_MINUTES * (left - farm.floors.wilt)) / (left - next);
    }
    left = next;
  }
  return HORIZON_MINUTES;
};

/** Minutes to the wilt floor for each bench, from the dry edge of the belief. */
export const minutesLeftOf = (
  farm: Farm,
  belief: Belief,
  outlook: Outlook,
  wall: WallMillis | 'unknown',
): readonly number[] =>
  belief.benches.map((bench, place) => {
    const facts = itemAt(outlook.facts, place);
    return facts.planted ? minutesToFloor(farm, bench.thetaLow, facts, outlook, wall) : HORIZON_MINUTES;
  });

/** Of several that may be wilting already the driest counts, and of those as dry the one that dries fastest. */
export const timeLeft = (
  farm: Farm,
  belief: Belief,
  outlook: Outlook,
  wall: WallMillis | 'unknown',
): TimeLeft => {
  const left = minutesLeftOf(farm, belief, outlook, wall);
  const order = left
    .map((minutes, place) => ({
      minutes: minutes < GONE_MINUTES ? 0 : minutes,
      thetaLow: itemAt(belief.benches, place).thetaLow,
      loss: dryEdgeLossPerMinute(itemAt(outlook.facts, place), 1),
      name: itemAt(outlook.facts, place).name,
    }))
    .filter(({ minutes }) => minutes < HORIZON_MINUTES)
    .toSorted((a, b) => a.minutes - b.minutes || a.thetaLow - b.thetaLow || b.loss - a.loss);
  const [first] = order;
  if (first === undefined) return { minutes: HORIZON_MINUTES, bench: null };
  const others = order.filter(({ minutes }) => minutes < GONE_MINUTES).length - 1;
  return { minutes: Math.min(...left), bench: first.name, ...(others > 0 ? { others } : {}) };
};

/** The driest that each edge of the belief gets within `minutes` of uptake at today's pace. */
export const driestWithin = (
  farm: Farm,
  belief: Belief,
  outlook: Outlook,
  wall: WallMillis | 'unknown',
  minutes: number,
): readonly { readonly theta: number; readonly thetaLow: number }[] =>
  belief.benches.map((bench, place) => {
    const facts = itemAt(outlook.facts, place);
    let { theta, thetaLow } = bench;
    for (let gone = 0; gone < minutes; gone += STEP_MINUTES) {
      const span = Math.min(STEP_MINUTES, minutes - gone);
      const uptake = hotDayUptake(outlook.day, wall === 'unknown' ? wall : wallAfterMinutes(wall, gone));
      const now = uptake * Math.min(HOTTER_SHARE_MAX, outlook.hotterShare);
      theta = dried(theta, lossPerMinute(facts, now), farm.floors.stress, span);
      thetaLow = dried(thetaLow, dryEdgeLossPerMinute(facts, now), farm.floors.stress, span);
    }
    return { theta, thetaLow };
  });
