import { breakPlant } from '../faults/plant-faults.ts';
import { nextChange, standing, type Fault } from '../faults/fault.ts';
import type { Plant, Witness } from '../plant/plant.ts';

/** The relay between a board and the pump, with what may be broken about either. */
export interface RelayContact {
  /** What the board asks of the relay from now on. */
  readonly ask: (asked: 'closed' | 'open') => void;
  readonly asked: () => 'closed' | 'open';
  /** What the contact does, asked or not. */
  readonly contact: () => 'closed' | 'open';
  /** Lets time pass in the shed. */
  readonly advance: (untilMillis: number, witness?: Witness) => void;
}

export const createRelayContact = (plant: Plant, faults: readonly Fault[]): RelayContact => {
  let asked: 'closed' | 'open' = 'open';
  const has = (kind: Fault['kind']): boolean => standing(faults, kind, plant.state.atMillis);
  const contact = (): 'closed' | 'open' =>
    has('relay-welded') || (asked === 'closed' && !has('relay-open')) ? 'closed' : 'open';
  const drive = (): void => {
    breakPlant(plant, faults, plant.state.atMillis);
    plant.setPump(contact() === 'closed');
  };
  return {
    ask: (wanted) => {
      asked = wanted;
      drive();
    },
    asked: () => asked,
    contact,
    advance: (untilMillis, witness) => {
      while (plant.state.atMillis < untilMillis) {
        drive();
        plant.advance(Math.min(untilMillis, nextChange(faults, plant.state.atMillis)), witness);
      }
      drive();
    },
  };
};
