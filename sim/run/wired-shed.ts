import type { Wiring } from '../../src/farm/farm.ts';
import { createFirmataPeer, type FirmataPeer, type PeerSetup } from '../board/firmata/peer.ts';
import { UNO_PIN_TABLE } from '../board/firmata/uno-pins.ts';
import type { Waiting } from '../board/firmata/usb.ts';
import { createShedPins, type ShedPins } from '../board/shed-pins.ts';
import type { Failing } from '../faults/failing.ts';
import type { Plant } from '../plant/plant.ts';
import { openWater, withGrower, type ShedAsked } from './shed.ts';

/** From a reset until stock firmware talks: the bootloader waits for an upload first. Common practice, no source. */
const BOOT_MILLIS = 1600;
/** What a simulated board says of itself. */
const FIRMWARE = { firmwareName: 'SimulatedFirmata.ino', firmwareVersion: { major: 2, minor: 8 } } as const;

/** A simulated shed behind the pins of a software board. */
export interface WiredShed {
  readonly plant: Plant;
  readonly pins: ShedPins;
  readonly peer: FirmataPeer;
  /** From now on shed and pins go on with this clock; `moved` is called when the pins may have changed. */
  readonly live: (clock: Waiting, moved: () => void) => void;
}

export const openWiredShed = (
  asked: ShedAsked & {
    readonly wiring: Wiring;
    readonly failing: readonly Failing[];
    readonly board?: Partial<Pick<PeerSetup, 'firmwareName' | 'outputHabit' | 'bootMillis'>>;
  },
): WiredShed => {
  const { farm, wiring, sky, startMillis } = asked;
  const plant = openWater(asked);
  const bare = createShedPins(farm, wiring, plant, sky, asked);
  const pins: ShedPins = { ...bare, advance: withGrower(farm, plant, startMillis, bare.advance) };
  pins.advance(startMillis);
  const peer = createFirmataPeer({
    ...FIRMWARE,
    pins: UNO_PIN_TABLE,
    world: pins.world,
    bootMillis: BOOT_MILLIS,
    ...asked.board,
  });
  return {
    plant,
    pins,
    peer,
    live: (clock, moved) => {
      const look = (): void => {
        const now = clock.now();
        pins.advance(now);
        moved();
        clock.setTimeout(look, Math.max(1, pins.nextDue() - now));
      };
      look();
    },
  };
};
