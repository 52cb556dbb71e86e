import type { Plant } from '../../sim/plant/plant.ts';
import type { Sample } from '../../src/ports/sample.ts';

/** A return pipe that lets little or nothing through: its water goes over the ends of the channels to the floor. */
export interface Block {
  readonly fromMillis: number;
  /** What share of the return still comes to the tank. */
  readonly share: number;
  /** When somebody clears the pipe and mops the floor; both sensors are dry from then on. */
  readonly clearedAtMillis: number;
}

/** So many litres on the floor, or in the gutter at the ends of the channels, wet what lies there. */
const WETS_LITRES = 2;

export interface BlockedReturn {
  /** What has gone to the floor. */
  readonly floorLitres: () => number;
  readonly works: (plant: Plant) => number;
  readonly heard: (samples: readonly Sample[]) => readonly Sample[];
}

/** For `works` and `heard` of a simulated run: the block itself, and what the two sensors show of its water. */
export const blockedReturn = ({ fromMillis, share, clearedAtMillis }: Block): BlockedReturn => {
  let floorLitres = 0;
  let wet = false;
  return {
    floorLitres: () => floorLitres,
    works: (plant) => {
      const { state } = plant;
      const stands = state.atMillis >= fromMillis && state.atMillis < clearedAtMillis;
      const wanted = stands ? share : 1;
      if (state.faults.returnShare !== wanted) {
        state.faults.returnShare = wanted;
        plant.faultsChanged();
      }
      floorLitres = state.tank.leakedLitres;
      wet = stands && floorLitres >= WETS_LITRES;
      if (state.atMillis < fromMillis) return fromMillis;
      return stands ? clearedAtMillis : Infinity;
    },
    heard: (samples) =>
      samples.map((sample) =>
        sample.channel === 'leak' || sample.channel === 'overflow' ? { ...sample, wet } : sample,
      ),
  };
};
