import { exp } from '../../src/physics/portable-math.ts';
import type { PlantBuild } from '../plant/build.ts';
import type { BenchToday } from '../plant/bench.ts';
import type { PlantState } from '../plant/state.ts';
import type { Air } from '../weather/sky.ts';

/** What the judge has counted by itself since it began, L. */
export interface SecondCount {
  readonly look: (state: PlantState, minutes: number) => void;
  /** Into each bench, from its inflow at every step. */
  readonly flooded: () => readonly number[];
  /** Drunk by each bench, by the trapezoid of equation 3 over the held water seen at both ends of every step. */
  readonly drunk: () => readonly number[];
}

const SATURATION = { at0: 0.6108, slope: 17.27, offset: 237.3 } as const;

/**
 * Counts water another way than the plant moves it: it sees states only, and works out what the leaves must have drunk
 * from the weather with its own lines (FAO-56 eq. 11 and 84, the glasshouse form of `physics/uptake`). Where both
 * part by more than a trapezoid may, one of them is wrong.
 */
export const secondCount = (
  build: PlantBuild,
  sky: { at(epochMillis: number): Air },
  today: () => readonly BenchToday[],
  start: PlantState,
): SecondCount => {
  const flooded = build.benches.map(() => 0);
  const drunk = build.benches.map(() => 0);
  let thetas = start.benches.map(() => 1);
  let known = false;

  const fullUptake = (bench: BenchToday, { airCelsius, vapourKilopascals, ...air }: Air): number => {
    const sun = air.sunWattsPerSquareMetre * build.sunShare;
    const { at0, slope, offset } = SATURATION;
    const deficit = Math.max(0, at0 * exp((slope * airCelsius) / (airCelsius + offset)) - vapourKilopascals);
    const open = 0.35 + (0.65 * sun) / (sun + 50);
    return (
      bench.canopy.litresPerMinutePerWatt * sun + bench.canopy.litresPerMinutePerKilopascal * deficit * open
    );
  };

  const look = (state: PlantState, minutes: number): void => {
    const now = today();
    const air = sky.at(state.atMillis - minutes * 30_000);
    const after = state.benches.map(
      ({ heldLitres }, place) => heldLitres / (now[place]?.capacityLitres ?? 1),
    );
    state.benches.forEach((bench, place) => {
      const facts = now[place];
      if (facts === undefined) return;
      flooded[place] = (flooded[place] ?? 0) + bench.inflowLitresPerMinute * minutes;
      const critical = facts.stressLitres / facts.capacityLitres;
      const factor = (theta: number): number => Math.min(1, theta / critical);
      const before = known ? (thetas[place] ?? 1) : (after[place] ?? 1);
      const mean = (factor(before) + factor(after[place] ?? 1)) / 2;
      drunk[place] = (drunk[place] ?? 0) + fullUptake(facts, air) * mean * minutes;
    });
    thetas = after;
    known = true;
  };
  return { look, flooded: () => flooded, drunk: () => drunk };
};
