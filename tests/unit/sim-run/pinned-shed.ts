import { createShedPins, type ShedPins } from '../../../sim/board/shed-pins.ts';
import { seededDice } from '../../../sim/dice.ts';
import type { Failing } from '../../../sim/faults/failing.ts';
import type { Fault } from '../../../sim/faults/fault.ts';
import { CENTRAL } from '../../../sim/plant/judgements.ts';
import type { Plant } from '../../../sim/plant/plant.ts';
import { openWater } from '../../../sim/run/shed.ts';
import type { Sky } from '../../../sim/weather/sky.ts';
import type { Farm, Wiring } from '../../../src/farm/farm.ts';
import { wallMillis } from '../../../src/time/instant.ts';
import { farmWith } from '../../support/farm.ts';
import { air, MINUTE, START } from '../../support/plant.ts';
import { everyEvidence, EVERY_PART } from '../../support/wiring.ts';

/** Still air of 28 °C, so that what a sensor shows changes by its noise only. */
export const AIR_CELSIUS = 28;
const still = air(AIR_CELSIUS, 2, 300);
export const STILL_SKY: Sky = {
  start: wallMillis(START - 60 * MINUTE),
  end: wallMillis(START + 48 * 60 * MINUTE),
  at: () => still,
};

/** Twice the pulses of the usual wiring, so that a minute of flow is told closely. */
export const WIRING = { ...EVERY_PART, returnFlow: { pin: 2, pulsesPerLitre: 3 } } as const satisfies Wiring;

export const FITTED = everyEvidence('meter');
export const FITTED_FARM = farmWith(FITTED);

export interface PinnedShed {
  readonly plant: Plant;
  readonly pins: ShedPins;
  /** What the board does to the pin of the relay. */
  readonly relay: (level: 0 | 1 | 'floating') => void;
  /** Second by second, to minutes from the start. */
  readonly to: (minutes: number) => void;
  readonly digital: (pin: number) => 0 | 1 | 'floating';
  readonly analog: (channel: number) => number;
}

/** The example's shed with every part on a pin, as its board sees it. */
export const pinnedShed = (
  asked: {
    readonly farm?: Farm;
    readonly wiring?: Wiring;
    readonly faults?: readonly Fault[];
    readonly failing?: readonly Failing[];
  } = {},
): PinnedShed => {
  const { farm = FITTED_FARM, wiring = WIRING, faults = [], failing = [] } = asked;
  const plant = openWater({ farm, sky: STILL_SKY, judgements: CENTRAL, startMillis: START });
  const pins = createShedPins(farm, wiring, plant, STILL_SKY, { faults, failing, dice: seededDice(5) });
  pins.advance(START);
  let nowMillis = START;
  return {
    plant,
    pins,
    relay: (level) => {
      pins.world.drive(wiring.relay.pin, level);
    },
    to: (minutes) => {
      while (nowMillis < START + minutes * MINUTE) {
        nowMillis = Math.min(nowMillis + 1000, START + minutes * MINUTE);
        pins.advance(nowMillis);
      }
    },
    digital: pins.world.readDigital,
    analog: pins.world.readAnalog,
  };
};
