import type { Farm } from '../../src/farm/farm.ts';
import { createShedBoard, type ShedBoard } from '../board/simulated-board.ts';
import type { Dice } from '../dice.ts';
import type { Fault } from '../faults/fault.ts';
import type { Judgements } from '../plant/judgements.ts';
import { createPlant, restedState, type Plant } from '../plant/plant.ts';
import type { Sky } from '../weather/sky.ts';
import { plantOf } from './farm-plant.ts';
import { nextVisit, visit } from './grower.ts';

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
  /** Whether somebody adds salts each morning, up to the usual strength as the probe shows it. */
  readonly doses?: boolean;
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

/** Time that passes in the shed, with the grower's visits. */
export const withGrower = (
  {
    farm,
    sky,
    faults,
    startMillis,
    doses = false,
  }: Pick<ShedAsked, 'farm' | 'sky' | 'faults' | 'startMillis' | 'doses'>,
  plant: Plant,
  advance: Advance,
): Advance => {
  let visitAt = nextVisit(farm, startMillis, { doses });
  return (untilMillis, witness) => {
    while (visitAt <= untilMillis) {
      advance(visitAt, witness);
      visit(farm, plant, faults, { doses, airCelsius: sky.at(visitAt).airCelsius });
      visitAt = nextVisit(farm, visitAt, { doses });
    }
    advance(untilMillis, witness);
  };
};

export const openShed = (asked: ShedAsked): Shed => {
  const { farm, sky, faults, dice } = asked;
  const plant = openWater(asked);
  const board = createShedBoard(plant, sky, {
    fitted: { ...farm.evidence, ...farm.sensors },
    limits: farm.pump,
    faults,
    fullReturnLitresPerMinute: farm.benches.reduce((sum, bench) => sum + bench.litresPerMinute, 0),
    dice,
  });
  return { plant, board: { ...board, advance: withGrower(asked, plant, board.advance) } };
};
