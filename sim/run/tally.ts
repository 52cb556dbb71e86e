import { heldShares, type Plant, type Witness } from '../plant/plant.ts';

/** The lowest or highest of a value, and when. */
export interface Extreme {
  readonly value: number;
  readonly atMillis: number;
}

/** A stretch in which the pump ran. */
export interface PumpRun {
  readonly fromMillis: number;
  readonly untilMillis: number;
}

/** What a day did to the true water, counted at every step of the plant between two moments. */
export interface Tally {
  readonly witness: Witness;
  readonly lowestTheta: readonly Extreme[];
  readonly warmestCelsius: readonly Extreme[];
  /** mg/L in the held water. */
  readonly lowestOxygen: readonly Extreme[];
  /** Strongest water of each bench while it is above its wilt floor, mS/cm; null where it never is: dried salts have no strength. */
  readonly strongest: readonly (number | null)[];
  /** The first moment at which each bench was at its wilt floor; null when it never was. */
  readonly wiltedAtMillis: readonly (number | null)[];
  readonly belowStressMinutes: readonly number[];
  /** Longest stretch in which nothing ran into each bench, from before the span if need be, up to its end. */
  readonly longestRestMinutes: readonly number[];
  readonly pumpRuns: readonly PumpRun[];
  readonly pumpMinutes: number;
}

/** At what share of a step a bench falls to a floor, on the straight line between its ends; 0 when it begins below it. */
const shareAbove = (before: number, after: number, floor: number): number =>
  before <= floor ? 0 : (before - floor) / (before - after);

export const tallyOf = (
  plant: Plant,
  fromMillis: number,
  untilMillis: number,
  floors: { readonly stress: number; readonly wilt: number },
): Tally => {
  const count = plant.state.benches.length;
  const lowestTheta = Array.from({ length: count }, (): Extreme => ({ value: Infinity, atMillis: 0 }));
  const warmestCelsius = Array.from({ length: count }, (): Extreme => ({ value: -Infinity, atMillis: 0 }));
  const lowestOxygen = Array.from({ length: count }, (): Extreme => ({ value: Infinity, atMillis: 0 }));
  const strongest = Array.from({ length: count }, (): number | null => null);
  const wiltedAtMillis = Array.from({ length: count }, (): number | null => null);
  const belowStressMinutes = Array.from({ length: count }, () => 0);
  let thetasBefore = heldShares(plant);
  const restMinutes = Array.from({ length: count }, () => 0);
  const longestRestMinutes = Array.from({ length: count }, () => 0);
  const pumpRuns: PumpRun[] = [];
  let pumpMinutes = 0;

  const witness: Witness = (state, minutes) => {
    const { atMillis } = state;
    if (state.pumpOn) {
      const last = pumpRuns[pumpRuns.length - 1];
      const from = atMillis - minutes * 60_000;
      if (last !== undefined && from - last.untilMillis < 1000) {
        pumpRuns[pumpRuns.length - 1] = { fromMillis: last.fromMillis, untilMillis: atMillis };
      } else pumpRuns.push({ fromMillis: from, untilMillis: atMillis });
    }
    state.benches.forEach((bench, place) => {
      restMinutes[place] = bench.inflowLitresPerMinute > 0 ? 0 : (restMinutes[place] ?? 0) + minutes;
    });
    const before = thetasBefore;
    const thetas = heldShares(plant);
    thetasBefore = thetas;
    if (atMillis <= fromMillis || atMillis > untilMillis) return;
    restMinutes.forEach((rest, place) => {
      longestRestMinutes[place] = Math.max(longestRestMinutes[place] ?? 0, rest);
    });
    if (state.pumpOn) pumpMinutes += minutes;
    state.benches.forEach(({ salts, drainableLitres, heldLitres }, place) => {
      if ((thetas[place] ?? 0) > floors.wilt)
        strongest[place] = Math.max(strongest[place] ?? 0, salts / (drainableLitres + heldLitres));
    });
    thetas.forEach((theta, place) => {
      if (theta < (lowestTheta[place]?.value ?? Infinity)) lowestTheta[place] = { value: theta, atMillis };
      const celsius = state.benches[place]?.waterCelsius ?? -Infinity;
      if (celsius > (warmestCelsius[place]?.value ?? -Infinity)) {
        warmestCelsius[place] = { value: celsius, atMillis };
      }
      const oxygen = state.benches[place]?.oxygenMilligramsPerLitre ?? Infinity;
      if (oxygen < (lowestOxygen[place]?.value ?? Infinity))
        lowestOxygen[place] = { value: oxygen, atMillis };
      const from = before[place] ?? theta;
      if (theta <= floors.wilt) {
        wiltedAtMillis[place] ??= atMillis - (1 - shareAbove(from, theta, floors.wilt)) * minutes * 60_000;
      }
      if (theta < floors.stress) {
        const below = (1 - shareAbove(from, theta, floors.stress)) * minutes;
        belowStressMinutes[place] = (belowStressMinutes[place] ?? 0) + below;
      }
    });
  };
  return {
    witness,
    lowestTheta,
    warmestCelsius,
    lowestOxygen,
    strongest,
    wiltedAtMillis,
    belowStressMinutes,
    longestRestMinutes,
    pumpRuns,
    get pumpMinutes() {
      return pumpMinutes;
    },
  };
};
