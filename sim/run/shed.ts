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
export const openWater = ({
  farm,
  sky,
  judgements,
  startMillis,
}: Pick<ShedAsked, 'farm' | 'sky' | 'judgements' | 'startMillis'>): Plant => {
  const build = plantOf(farm, judgements);
  const state = restedState(build, startMillis, {
    tankLitres: farm.tank.usualLitres,
    celsius: sky.at(startMillis).airCelsius,
    millisiemensPerCm: farm.tank.strengthMillisiemensPerCm,
  });
  return createPlant(build, sky, state);
};

type Advance = ShedBoard['advance'];

/** Time that passes in the shed, with the grower's bucket where the tank is topped up by hand. */
export const withGrower = (farm: Farm, plant: Plant, startMillis: number, advance: Advance): Advance => {
  let topUpAt = nextTopUp(farm, startMillis);
  return (untilMillis, witness) => {
    while (topUpAt <= untilMillis) {
      advance(topUpAt, witness);
      topUpByHand(farm, plant);
      topUpAt = nextTopUp(farm, topUpAt);
    }
    advance(untilMillis, witness);
  };
};

export const openShed = (asked: ShedAsked): Shed => {
  const { farm, sky, faults, dice, startMillis } = asked;
  const plant = openWater(asked);
  const board = createShedBoard(plant, sky, {
    fitted: { ...farm.evidence, ...farm.sensors },
    limits: farm.pump,
    faults,
    fullReturnLitresPerMinute: farm.benches.reduce((sum, bench) => sum + bench.litresPerMinute, 0),
    dice,
  });
  return { plant, board: { ...board, advance: withGrower(farm, plant, startMillis, board.advance) } };
};
