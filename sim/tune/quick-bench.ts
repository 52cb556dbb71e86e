import { itemAt } from '../../src/units/assertion.ts';
import type { BenchToday } from '../plant/bench.ts';
import { drainMinutes } from '../plant/drain.ts';
import { heldAfter, noWaterStep, waterStep } from '../plant/water.ts';
import { answersFor, type FloodTimes } from './answered.ts';
import { waterTable } from './water-table.ts';
import type { WeatherSums } from './weather-sums.ts';

/** How dry a bench gets, shares of its capacity. */
export interface QuickTrial {
  lowestTheta: number;
  /** With the worst single flood missed; Infinity where none could be. */
  missedTheta: number;
}

export interface QuickAsked {
  readonly inflowLitresPerMinute: number;
  /** From when to when the plants of this bench stand; they come with full cups. */
  readonly standing: { readonly fromMinute: number; readonly untilMinute: number };
  /** The bench as it is from each of these minutes on, the first when the plants come or before. */
  readonly ages: readonly { readonly fromMinute: number; readonly today: BenchToday }[];
  readonly sums: WeatherSums;
  readonly fromMinute: number;
  readonly untilMinute: number;
  /** 1 in each minute of the day parts that are looked at. */
  readonly within: Uint8Array;
}

/** So far the table of a rest reaches. */
const DRAINED_MINUTES = 30;
/** No pump runs for longer, see `longestOnMinutes`. */
const FLOOD_MINUTES = 60;
/** After the table, a film that could still wet the roots by less than this share of what they hold is none. */
const NO_FILM_SHARE = 0.004;
const FIRST_STEP_MINUTES = 2;
const AFTER_TABLE_STEP_MINUTES = 10;
const LONGEST_STEP_MINUTES = 20;
/** Channels with less than this share of what a long flood leaves in them drain another way than the table: their roots are dry. */
const NEAR_FULL_SHARE = 0.8;

const read = (table: Float64Array, place: number): number => {
  const before = Math.min(Math.floor(place), table.length - 2);
  const value = table[before] ?? NaN;
  return value + ((table[before + 1] ?? NaN) - value) * (place - before);
};

/** The highest uptake of any minute, as a share of capacity; above 0, so that a table can be divided by it. */
const uptakeMax = ({ ages, sums }: QuickAsked): number => {
  let most = 1e-9;
  const rise = (sum: Float64Array, minute: number): number => (sum[minute + 1] ?? NaN) - (sum[minute] ?? NaN);
  for (const { today } of [itemAt(ages, 0), itemAt(ages, ages.length - 1)])
    for (let minute = 0; minute + 1 < sums.sun.length; minute += 1) {
      const drunk =
        today.canopy.litresPerMinutePerWatt * rise(sums.sun, minute) +
        today.canopy.litresPerMinutePerKilopascal * rise(sums.deficit, minute) +
        today.wetCupSquareMetres * rise(sums.openWater, minute);
      most = Math.max(most, drunk / today.capacityLitres);
    }
  return most;
};

/**
 * The held water of one bench under many plans: a flood, and the rest after a full one, are read from two tables made by the plant's own steps; what
 * film the table leaves is followed in long steps, and without a film uptake is a difference of sums. It sees nothing of the tank, and
 * takes uptake as even while there is a film; some points of θ are left for that by whoever asks, and the whole model judges what is left.
 * @returns a judge that stops at the first miss that leaves less than `giveUpBelow`
 */
export const quickBench = (asked: QuickAsked): ((floods: FloodTimes, giveUpBelow: number) => QuickTrial) => {
  const { ages, sums, standing, inflowLitresPerMinute, within } = asked;
  const fromMinute = Math.max(asked.fromMinute, standing.fromMinute);
  const untilMinute = Math.min(asked.untilMinute, standing.untilMinute);
  const goesBeforeEnd = standing.untilMinute < asked.untilMinute;
  const count = ages.length;
  const { today: middle } = itemAt(ages, count >> 1);
  const most = uptakeMax(asked);
  const filling = waterTable(middle, {
    startLitres: 0,
    inflowLitresPerMinute,
    minutes: FLOOD_MINUTES,
    uptakeMax: most,
  });
  const fullLitres = filling.drainable(1, 0, FLOOD_MINUTES);
  const draining = waterTable(middle, {
    startLitres: fullLitres,
    inflowLitresPerMinute: 0,
    minutes: DRAINED_MINUTES,
    uptakeMax: most,
  });
  const froms = Float64Array.from(ages, (age) => age.fromMinute);
  const perShare = (of: (today: BenchToday) => number): Float64Array =>
    Float64Array.from(ages, ({ today }) => of(today) / today.capacityLitres);
  const perSun = perShare(({ canopy }) => canopy.litresPerMinutePerWatt);
  const perDeficit = perShare(({ canopy }) => canopy.litresPerMinutePerKilopascal);
  const perCup = perShare(({ wetCupSquareMetres }) => wetCupSquareMetres);
  const capacity = Float64Array.from(ages, ({ today }) => today.capacityLitres);
  const stressTheta = middle.stressLitres / middle.capacityLitres;
  const drainedTo = drainMinutes(middle, fullLitres);

  let age = 0;
  const trial: QuickTrial = { lowestTheta: Infinity, missedTheta: Infinity };

  /** Full uptake over a stretch at one age, share of capacity. */
  const wanted = (from: number, until: number, at: number): number =>
    (perSun[at] ?? NaN) * (read(sums.sun, until) - read(sums.sun, from)) +
    (perDeficit[at] ?? NaN) * (read(sums.deficit, until) - read(sums.deficit, from)) +
    ((perCup[at] ?? 0) === 0
      ? 0
      : (perCup[at] ?? NaN) * (read(sums.openWater, until) - read(sums.openWater, from)));

  const film = noWaterStep();
  /** θ at the end of a rest that began with so much drainable water, and what of that is left by then. */
  let left = 0;
  const rested = (theta: number, litres: number, from: number, until: number): number => {
    let now = theta;
    let at = from;
    let step = FIRST_STEP_MINUTES;
    left = litres;
    if (litres >= NEAR_FULL_SHARE * fullLitres) {
      const along = litres >= fullLitres ? 0 : drainedTo(litres);
      at = Math.min(until, from + Math.max(0, DRAINED_MINUTES - along));
      const uptake = wanted(from, at, age) / (at - from);
      const end = along + at - from;
      now = draining.theta(theta, uptake, end);
      if (along > 0) now += theta - draining.theta(theta, uptake, along);
      left = draining.drainable(theta, uptake, end);
      step = AFTER_TABLE_STEP_MINUTES;
    }
    // A film that was never full, and one that slow channels keep, is followed by itself.
    while (at < until && left > NO_FILM_SHARE * middle.capacityLitres) {
      const next = Math.min(until, at + step);
      const drunk = (wanted(at, next, age) / (next - at)) * middle.capacityLitres;
      waterStep(middle, left, now * middle.capacityLitres, 0, drunk, next - at, film);
      left = film.drainableLitres;
      now = film.heldLitres / middle.capacityLitres;
      at = next;
      step = Math.min(LONGEST_STEP_MINUTES, step * 2);
    }
    // Without a film only the sum of what is wanted counts, above the stress floor and below.
    for (let older = age; at < until;) {
      const grown = older + 1 < count ? Math.max(at, froms[older + 1] ?? Infinity) : Infinity;
      const next = Math.min(until, grown);
      now = heldAfter(now, 0, wanted(at, next, older), stressTheta, 1);
      at = next;
      if (next === grown) {
        now *= (capacity[older] ?? NaN) / (capacity[older + 1] ?? NaN);
        older += 1;
      }
    }
    return Math.max(0, now);
  };

  /** Minutes along the filling of empty channels at which so much is in them. */
  const fillingTime = (theta: number, uptake: number, litres: number): number => {
    if (litres <= 0) return 0;
    // The channels fill at first as if nothing drained.
    const guess = litres / inflowLitresPerMinute;
    const there = filling.drainable(theta, uptake, guess);
    return there > 0 ? Math.min(FLOOD_MINUTES, (guess * litres) / there) : guess;
  };

  return (floods, giveUpBelow) => {
    const { begins, ends } = floods;
    trial.lowestTheta = Infinity;
    trial.missedTheta = Infinity;
    age = 0;
    let theta = 1;
    let litres = 0;
    let end = standing.fromMinute;
    for (let place = 0; place < begins.length; place += 1) {
      // Water that ran before the plants came has wetted none of them.
      if ((ends[place] ?? NaN) <= standing.fromMinute) continue;
      const begin = Math.max(begins[place] ?? NaN, standing.fromMinute);
      if (begin >= untilMinute) {
        // Plants that go before the next flood are dry at most when they go.
        if (goesBeforeEnd && answersFor(floods, place, within))
          trial.lowestTheta = Math.min(trial.lowestTheta, rested(theta, litres, end, untilMinute));
        break;
      }
      const isOurs = begin >= fromMinute && answersFor(floods, place, within);
      const next = begins[place + 1];
      if (isOurs && next !== undefined) {
        const missedUntil = Math.min(next, standing.untilMinute);
        trial.missedTheta = Math.min(trial.missedTheta, rested(theta, litres, end, missedUntil));
        if (trial.missedTheta < giveUpBelow) break;
      }
      const before = rested(theta, litres, end, begin);
      if (isOurs) trial.lowestTheta = Math.min(trial.lowestTheta, before);
      end = ends[place] ?? NaN;
      const uptake = wanted(begin, end, age) / (end - begin);
      const along = fillingTime(before, uptake, left);
      litres = filling.drainable(before, uptake, along + end - begin);
      theta = filling.theta(before, uptake, along + end - begin);
      if (along > 0) theta += before - filling.theta(before, uptake, along);
      theta = Math.min(1, theta);
      while (age + 1 < count && (froms[age + 1] ?? Infinity) <= end) {
        // Roots that have grown hold the same water, which is a smaller share of what they can.
        theta *= (capacity[age] ?? NaN) / (capacity[age + 1] ?? NaN);
        age += 1;
      }
    }
    return trial;
  };
};
