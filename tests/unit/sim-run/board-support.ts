import type { Fitted } from '../../../sim/board/sensors.ts';
import { createShedBoard, type ShedBoard } from '../../../sim/board/simulated-board.ts';
import { seededDice } from '../../../sim/dice.ts';
import type { Fault, FaultKind } from '../../../sim/faults/fault.ts';
import type { Plant } from '../../../sim/plant/plant.ts';
import type { Sample } from '../../../src/ports/sample.ts';
import { monotonicMillis, wallMillis } from '../../../src/time/instant.ts';
import { seconds } from '../../../src/units/quantity.ts';
import { air, LETTUCE, MINUTE, plantBuild, rested, START } from '../../support/plant.ts';

export const EVERYTHING: Fitted = {
  airTemperature: true,
  humidity: true,
  returnFlow: 'meter',
  pumpCurrent: true,
  relayReadBack: true,
  tankLevel: true,
  tankFloat: true,
  leakSensor: true,
  overflowFloat: true,
};
export const LIMITS = { shortestOffSeconds: 60, longestOnMinutes: 40 } as const;
export const AIR_CELSIUS = 28;
/** Two benches of 10 L/min. */
export const FULL_FLOW = 20;

/** A shed of two benches with every sensor under an air of 28 °C, and what a test asks of it; times in minutes. */
export interface TestShed {
  readonly plant: Plant;
  readonly board: ShedBoard;
  readonly on: (longestMinutes: number) => void;
  readonly off: () => void;
  readonly until: (minutes: number) => void;
  /** Minutes in which the pump ran since the start. */
  readonly ranMinutes: () => number;
  readonly sees: <Channel extends Sample['channel']>(
    channel: Channel,
  ) => Extract<Sample, { channel: Channel }> | undefined;
}

export const shedWith = (faults: readonly Fault[] = [], fitted: Partial<Fitted> = {}): TestShed => {
  const now = air(AIR_CELSIUS, 2, 300);
  const sky = { start: wallMillis(START), end: wallMillis(START + 48 * 60 * MINUTE), at: () => now };
  const plant = rested(plantBuild([LETTUCE, LETTUCE]), sky);
  const board = createShedBoard(plant, sky, {
    fitted: { ...EVERYTHING, ...fitted },
    limits: LIMITS,
    faults,
    fullReturnLitresPerMinute: FULL_FLOW,
    dice: seededDice(5),
  });
  let ran = 0;
  return {
    plant,
    board,
    on: (longestMinutes) => {
      board.command({ kind: 'pump-on', longest: seconds(longestMinutes * 60) });
    },
    off: () => {
      board.command({ kind: 'pump-off' });
    },
    until: (minutes) => {
      board.advance(START + minutes * MINUTE, (state, step) => {
        if (state.pumpOn) ran += step;
      });
    },
    ranMinutes: () => ran,
    sees: <Channel extends Sample['channel']>(channel: Channel) => {
      board.samples();
      board.sense(monotonicMillis(plant.state.atMillis));
      return board
        .samples()
        .find((sample): sample is Extract<Sample, { channel: Channel }> => sample.channel === channel);
    },
  };
};

export const fault = (kind: FaultKind, fromMinutes = 0, untilMinutes = Infinity): Fault => ({
  kind,
  fromMillis: START + fromMinutes * MINUTE,
  untilMillis: START + untilMinutes * MINUTE,
});
