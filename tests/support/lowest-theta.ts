import { benchToday } from '../../sim/plant/bench.ts';
import { heldShares, type Plant } from '../../sim/plant/plant.ts';
import { DAY_MINUTES, flooded, MINUTE, type Flood } from './plant.ts';

/** The plant takes its canopy afresh this often. */
const GROWTH_MILLIS = 6 * 60 * MINUTE;

/**
 * Lowest θ of each bench over a day of floods: at every step, and at each moment at which a grown crop can hold more
 * than before. That moment is the end of a step for the smaller crop; the next step begins to fill the new room, and
 * how long it is hangs on the floods.
 */
export const lowestThetas = (plant: Plant, floods: readonly Flood[]): readonly number[] => {
  const { benches, judgements } = plant.build;
  const lowest = [...heldShares(plant)];
  flooded(plant, floods, DAY_MINUTES, (state) => {
    const grows = state.atMillis % GROWTH_MILLIS === 0;
    heldShares(plant).forEach((theta, place) => {
      lowest[place] = Math.min(lowest[place]!, theta);
      if (!grows) return;
      const grown = benchToday(benches[place]!, judgements, state.atMillis);
      lowest[place] = Math.min(lowest[place], state.benches[place]!.heldLitres / grown.capacityLitres);
    });
  });
  return lowest;
};
