import type { Wiring } from '../../src/farm/farm.ts';
import type { BoardPeer } from '../board/board-peer.ts';
import { createFirmataPeer, type FirmataPeer, type PeerSetup, type PinWorld } from '../board/firmata/peer.ts';
import { UNO_PIN_TABLE } from '../board/firmata/uno-pins.ts';
import type { Waiting } from '../board/firmata/usb.ts';
import { createShedPins, type ShedPins } from '../board/shed-pins.ts';
import type { Failing } from '../faults/failing.ts';
import type { Plant, Witness } from '../plant/plant.ts';
import { openWater, withGrower, type ShedAsked } from './shed.ts';

/** From a reset until stock firmware talks: the bootloader waits for an upload first. Common practice, no source. */
const BOOT_MILLIS = 1600;
/** What a simulated board says of itself. */
const FIRMWARE = { firmwareName: 'SimulatedFirmata.ino', firmwareVersion: { major: 2, minor: 8 } } as const;

/** A simulated shed behind the pins of a board. */
export interface WiredShed<Peer extends BoardPeer = FirmataPeer> {
  readonly plant: Plant;
  readonly pins: ShedPins;
  readonly peer: Peer;
  /**
   * From now on shed and pins go on with this clock, and a board that was given lives on with them, whether or not
   * anybody has opened its port; `moved` is called when the pins may have changed, `witness` sees every step of the plant.
   */
  readonly live: (clock: Waiting, moved: () => void, witness?: Witness) => void;
}

export const openWiredShed = <Peer extends BoardPeer = FirmataPeer>(
  asked: ShedAsked & {
    readonly wiring: Wiring;
    readonly failing: readonly Failing[];
    readonly lied?: (failing: Failing) => void;
    readonly board?: Partial<Pick<PeerSetup, 'firmwareName' | 'outputHabit' | 'bootMillis'>>;
    /** The board in front of these pins; a software board unless given. */
    readonly peer?: (world: PinWorld) => Peer;
  },
): WiredShed<Peer | FirmataPeer> => {
  const { farm, wiring, sky, startMillis } = asked;
  const plant = openWater(asked);
  const bare = createShedPins(farm, wiring, plant, sky, asked);
  const pins: ShedPins = { ...bare, advance: withGrower(asked, plant, bare.advance) };
  pins.advance(startMillis);
  const peer =
    asked.peer?.(pins.world) ??
    createFirmataPeer({
      ...FIRMWARE,
      pins: UNO_PIN_TABLE,
      world: pins.world,
      bootMillis: BOOT_MILLIS,
      ...asked.board,
    });
  // A software board does nothing that is not asked through its port.
  const alive = asked.peer === undefined ? null : peer;
  return {
    plant,
    pins,
    peer,
    live: (clock, moved, witness) => {
      const look = (): void => {
        const now = clock.now();
        pins.advance(now, witness);
        alive?.advance(now);
        moved();
        const due = Math.min(pins.nextDue(), alive?.nextDue(now) ?? Infinity);
        clock.setTimeout(look, Math.max(1, due - now));
      };
      look();
    },
  };
};
