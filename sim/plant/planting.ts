import type { BenchState } from './state.ts';

/**
 * One crop leaves a bench and the next comes: the water in the old roots goes with them, and the new cups come full,
 * with water of the same strength. What the bench lost by it is accounted for, and is negative where it gained.
 */
export const replanted = (bench: BenchState, fromMillis: number, capacityLitres: number): void => {
  if (bench.plantedMillis === fromMillis) return;
  bench.plantedMillis = fromMillis;
  const litres = bench.drainableLitres + bench.heldLitres;
  const taken = bench.heldLitres - capacityLitres;
  const salts = litres > 0 ? (bench.salts * taken) / litres : 0;
  bench.heldLitres = capacityLitres;
  bench.salts -= salts;
  bench.harvestedLitres += taken;
  bench.harvestedSalts += salts;
};
