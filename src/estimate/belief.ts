import type { Farm } from '../farm/farm.ts';
import { minutesBetween, monotonicMillis, type MonotonicMillis } from '../time/instant.ts';
import { exp } from '../physics/portable-math.ts';
import type { BenchFacts } from './bench-facts.ts';

/**
 * How far the belief may be wrong, taken on the dry side: a quarter less held water; two fifths more uptake, since both
 * a plant's leaf and what a leaf drinks are doubted; a little uptake in the dark, where the hourly equation gives next to
 * none once it has cooled the leaves by longwave radiation; and wetting at half the usual speed. Engineering judgement,
 * no source; held against the ranges of the simulator by `tests/simulation/told-time`. Only field tests narrow it.
 */
export const DOUBT = {
  capacityShare: 0.75,
  uptakeShare: 1.4,
  darkMillimetresPerHour: 0.045,
  wettingShare: 0.5,
} as const;
/** Where nothing sees the water: it needs this long to reach the roots after the pump's start, */
export const FILL_MINUTES = 2;
/** and goes on wetting them for this long after its stop. */
export const DRAIN_MINUTES = 5;
/** Share of the missing water that comes back each minute while water runs. Judgement, no source. */
const WETTING_PER_MINUTE = 0.13;
/** The longest step of the belief; longer gaps are cut. */
const STEP_MINUTES = 5;

/** Held water of one bench as a share of what it can hold: the likely value and the dry edge of its doubt. */
export interface BenchBelief {
  readonly theta: number;
  readonly thetaLow: number;
}

export interface Belief {
  readonly at: MonotonicMillis;
  readonly benches: readonly BenchBelief[];
  /** The last stretch in which water is believed to have run past the roots; open while it still does. */
  readonly wet: { readonly from: MonotonicMillis; readonly until: MonotonicMillis | null } | null;
}

/** Nothing is known after a start: take every bench as half way to its wilt floor. */
export const beliefAtStart = (farm: Farm, at: MonotonicMillis): Belief => ({
  at,
  benches: farm.benches.map(() => {
    const theta = (farm.floors.stress + farm.floors.wilt) / 2;
    return { theta, thetaLow: theta };
  }),
  wet: null,
});

/** Share of its held water that a bench loses each minute at full uptake. */
export const lossPerMinute = (facts: BenchFacts, millimetresPerHour: number): number =>
  facts.planted ? (millimetresPerHour * facts.litresPerMillimetre) / 60 / facts.capacityLitres : 0;

/** The same on the dry edge of the doubt. */
export const dryEdgeLossPerMinute = (facts: BenchFacts, millimetresPerHour: number): number =>
  lossPerMinute(facts, DOUBT.uptakeShare * millimetresPerHour + DOUBT.darkMillimetresPerHour) /
  DOUBT.capacityShare;

/** θ after `minutes` of uptake alone; below the stress floor uptake falls in proportion (FAO-56 eq. 84). */
export const dried = (theta: number, loss: number, stress: number, minutes: number): number => {
  const straight = theta - loss * minutes;
  if (straight >= stress) return straight;
  if (theta >= stress) {
    const toStress = loss > 0 ? (theta - stress) / loss : 0;
    return stress * exp((-loss * (minutes - toStress)) / stress);
  }
  return theta * exp((-loss * minutes) / stress);
};

const wetted = (theta: number, perMinute: number, minutes: number): number =>
  1 - (1 - theta) * exp(-perMinute * minutes);

/** θ on the dry edge of the doubt after so many minutes in which water runs past the roots. */
export const wettedDryEdge = (thetaLow: number, minutes: number): number =>
  wetted(thetaLow, WETTING_PER_MINUTE * DOUBT.wettingShare, minutes);

/** What the roots of all benches may lack, litres: on the dry edge of the doubt, of all that they can hold. */
export const lackedLitres = ({ benches }: Belief, facts: readonly BenchFacts[]): number =>
  facts.reduce(
    (sum, { capacityLitres }, place) => sum + (1 - (benches[place]?.thetaLow ?? 1)) * capacityLitres,
    0,
  );

const wetMinutesIn = ({ wet }: Belief, from: MonotonicMillis, to: MonotonicMillis): number =>
  wet === null ? 0 : Math.max(0, Math.min(to, wet.until ?? to) - Math.max(from, wet.from)) / 60_000;

const stepped = (
  bench: BenchBelief,
  facts: BenchFacts,
  millimetresPerHour: number,
  stress: number,
  minutes: number,
  wetMinutes: number,
): BenchBelief => {
  const loss = lossPerMinute(facts, millimetresPerHour);
  const lossHigh = dryEdgeLossPerMinute(facts, millimetresPerHour);
  return {
    theta: wetted(dried(bench.theta, loss, stress, minutes), WETTING_PER_MINUTE, wetMinutes),
    thetaLow: wettedDryEdge(dried(bench.thetaLow, lossHigh, stress, minutes), wetMinutes),
  };
};

/** The belief moved to `now` under one uptake in mm/h. */
export const moved = (
  belief: Belief,
  facts: readonly BenchFacts[],
  millimetresPerHour: number,
  stress: number,
  now: MonotonicMillis,
): Belief => {
  let { at, benches } = belief;
  while (at < now) {
    const next = monotonicMillis(Math.min(now, at + STEP_MINUTES * 60_000));
    const minutes = minutesBetween(at, next);
    const wetMinutes = wetMinutesIn(belief, at, next);
    benches = benches.map((bench, place) => {
      const known = facts[place];
      return known === undefined
        ? bench
        : stepped(bench, known, millimetresPerHour, stress, minutes, wetMinutes);
    });
    at = next;
  }
  return { ...belief, at, benches };
};

export const wetFrom = (belief: Belief, from: MonotonicMillis): Belief =>
  belief.wet?.until === null ? belief : { ...belief, wet: { from, until: null } };

export const wetUntil = (belief: Belief, until: MonotonicMillis): Belief =>
  belief.wet?.until === null ? { ...belief, wet: { from: belief.wet.from, until } } : belief;
