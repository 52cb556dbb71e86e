import { AT, capacityLitres, equations, TANK_AT, type ShedOfEquations } from '../laws/flood-day-equations.ts';
import { integrated, watched } from '../support/odex.ts';
import { MINUTE, START, type Weather } from '../support/plain-plant.ts';
import { FLOOD_MINUTES, floodFrom, FLOODS_A_DAY, standardBenches } from '../support/standard-load.ts';

/** The standard load as differential equations, for an accurate solver of general use. */

export const VALVE = { closesAtLitres: 590, litresPerMinute: 10 } as const;
export const TOP_UP_STRENGTH = 0.3;
export const TANK_LITRES = 600;
const GROWTH_MINUTES = 360;

export const shedOfEquations = (sky: Weather): ShedOfEquations => ({
  benches: standardBenches(4),
  valve: VALVE,
  topUpMillisiemensPerCm: TOP_UP_STRENGTH,
  airAt: (minutes) => sky.at(START + minutes * MINUTE),
});

/** A stretch without events: the pump stays as it is, and the canopies are taken as they are. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly pumpOn: boolean;
}

export const stretches = (
  days: number,
  missed: (day: number, flood: number) => boolean,
): readonly Stretch[] => {
  const pump: { readonly at: number; readonly on: boolean }[] = [];
  for (let day = 0; day < days; day += 1) {
    for (let flood = 0; flood < FLOODS_A_DAY; flood += 1) {
      if (missed(day, flood)) continue;
      const at = day * 1440 + Math.round(floodFrom(flood) * MINUTE) / MINUTE;
      pump.push({ at, on: true }, { at: at + FLOOD_MINUTES, on: false });
    }
  }
  const growth = Array.from({ length: 4 * days }, (_, slot) => slot * GROWTH_MINUTES);
  const edges = [...new Set([...pump.map(({ at }) => at), ...growth, days * 1440])].sort((a, b) => a - b);
  return edges.slice(1).map((to, place) => {
    const from = edges[place]!;
    return { from, to, pumpOn: pump.findLast(({ at }) => at <= from)?.on ?? false };
  });
};

const agesAt = (shed: ShedOfEquations, minutes: number): readonly number[] =>
  shed.benches.map(({ ageDays }) => ageDays + Math.floor(minutes / GROWTH_MINUTES) / 4);

export const equationsAt = (shed: ShedOfEquations, { from, pumpOn }: Stretch): ReturnType<typeof equations> =>
  equations(shed, agesAt(shed, from), pumpOn);

/** cap of each bench at a moment. */
export const capacitiesAt = (shed: ShedOfEquations, minutes: number): readonly number[] => {
  const ages = agesAt(shed, minutes);
  return shed.benches.map((bench, place) => capacityLitres({ ...bench, ageDays: ages[place]! }));
};

/** Every bench full, all water at 20 °C and 1.6 mS/cm, oxygen as the plant has it at rest. */
export const restedVector = (shed: ShedOfEquations, oxygen: number): readonly number[] => {
  const tankAt = AT.perBench * shed.benches.length;
  const y = new Array<number>(tankAt + 3).fill(0);
  capacitiesAt(shed, 0).forEach((capacity, place) => {
    const at = AT.perBench * place;
    y[at + AT.v] = capacity;
    y[at + AT.celsius] = 20;
    y[at + AT.salts] = capacity * 1.6;
    y[at + AT.oxygen] = oxygen;
  });
  y[tankAt + TANK_AT.litres] = TANK_LITRES;
  y[tankAt + TANK_AT.celsius] = 20;
  y[tankAt + TANK_AT.salts] = TANK_LITRES * 1.6;
  return y;
};

/** Held water of all benches at one moment. */
export interface HeldAt {
  readonly minutes: number;
  readonly heldLitres: readonly number[];
}

export const heldOf = (y: readonly number[]): readonly number[] =>
  Array.from({ length: Math.floor(y.length / AT.perBench) }, (_, place) => y[AT.perBench * place + AT.v]!);

/** Solves the days as fast as it can. */
export const solved = (
  shed: ShedOfEquations,
  plan: readonly Stretch[],
  start: readonly number[],
  tolerance: number,
): readonly number[] =>
  plan.reduce((y, part) => integrated(equationsAt(shed, part), part.from, y, part.to, tolerance), start);

/** Solves the days and tells what it found at every whole minute and at every event. */
export const solvedByMinute = (
  shed: ShedOfEquations,
  plan: readonly Stretch[],
  start: readonly number[],
  tolerance: number,
): readonly HeldAt[] => {
  const told: HeldAt[] = [];
  let y = start;
  for (const part of plan) {
    y = watched(equationsAt(shed, part), part.from, y, part.to, tolerance, (after, upTo, valueAt) => {
      for (let minutes = Math.floor(after) + 1; minutes <= upTo; minutes += 1) {
        told.push({
          minutes,
          heldLitres: shed.benches.map((_, place) => valueAt(AT.perBench * place + AT.v, minutes)),
        });
      }
    });
    told.push({ minutes: part.to, heldLitres: heldOf(y) });
  }
  return told;
};
