import { assert } from '../../../src/units/assertion.ts';
import type { Dice } from '../../dice.ts';
import { EEPROM_BYTES } from './registers.ts';

/** What a byte holds whose write was cut off by a loss of power. */
export type HalfWritten = 'random' | 'erased';

/** The bytes that outlive everything, and the one that is being written. */
export interface EepromCells {
  readonly read: (address: number) => number;
  /** Begins a write; the old byte stands until it is over. */
  readonly begin: (address: number, value: number, endsAt: number) => void;
  /** When the write that goes on is over, `null` when none does. A reset does not end it. */
  readonly endsAt: () => number | null;
  readonly finish: () => void;
  /** Power has gone: what is being written is written by half. */
  readonly cut: () => void;
  readonly writes: () => number;
  readonly copy: () => Uint8Array;
}

export const createEepromCells = (bytes: Uint8Array, halfWritten: HalfWritten, dice: Dice): EepromCells => {
  assert(bytes.length === EEPROM_BYTES, `an EEPROM of ${bytes.length} bytes, it has ${EEPROM_BYTES}`);
  const cells = Uint8Array.from(bytes);
  let going: { readonly address: number; readonly value: number; readonly endsAt: number } | null = null;
  let writes = 0;
  return {
    read: (address) => cells[address] ?? 0,
    begin: (address, value, endsAt) => {
      going = { address, value, endsAt };
      writes += 1;
    },
    endsAt: () => going?.endsAt ?? null,
    finish: () => {
      if (going !== null) cells[going.address] = going.value;
      going = null;
    },
    cut: () => {
      if (going !== null) cells[going.address] = halfWritten === 'erased' ? 0xff : Math.floor(dice() * 256);
      going = null;
    },
    writes: () => writes,
    copy: () => Uint8Array.from(cells),
  };
};
