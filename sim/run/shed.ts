import type { Farm } from '../../src/farm/farm.ts';
import { createShedBoard, type ShedBoard } from '../board/simulated-board.ts';
import type { Dice } from '../dice.ts';
import type { Fault } from '../faults/fault.ts';
import type { Judgements } from '../plant/judgements.ts';
import { createPlant, restedState, type Plant } from '../plant/plant.ts';
import type { Sky } from '../weather/sky.ts';
import { plantOf } from './farm-plant.ts';
import { nextTopUp, topUpByHand } from './grower.ts';

/** A simulated shed, ready to be run: its water, and the board in front of it. */
export interface Shed {
  readonly plant: Plant;
  readonly board: ShedBoard;
}

export interface ShedAsked {
  readonly farm: Farm;
  readonly sky: Sky;
  readonly judgements: Judgements;
  readonly faults: readonly Fault[];
  readonly dice: Dice;
  readonly startMillis: number;
}

/** Benches full and drained, the tank at its usual level and strength and at the temperature of the air. */
export const openShed = ({ farm, sky, judgements, faults, dice, startMillis }: ShedAsked): Shed => {
  const build = plantOf(farm, judgements);
  const state = restedState(build, startMillis, {
    tankLitres: farm.tank.usualLitres,
    celsius: sky.at(startMillis).airCelsius,
    millisiemensPerCm: farm.tank.strengthMillisiemensPerCm,
  });
  const plant = createPlant(build, sky, state);
  const board = createShedBoard(plant, sky, {
    fitted: { ...farm.evidence, ...farm.sensors },
    limits: farm.pump,
    faults,
    fullReturnLitresPerMinute: farm.benches.reduce((sum, bench) => sum + bench.litresPerMinute, 0),
    dice,
  });
  let topUpAt = nextTopUp(farm, startMillis);
  const advance: ShedBoard['advance'] = (untilMillis, witness) => {
    while (topUpAt <= untilMillis) {
      board.advance(topUpAt, witness);
      topUpByHand(farm, plant);
      topUpAt = nextTopUp(farm, topUpAt);
    }
    board.advance(untilMillis, witness);
  };
  return { plant, board: { ...board, advance } };
};
