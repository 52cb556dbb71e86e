import type { Wiring } from '../../src/farm/farm.ts';
import type { FirmataClient } from './device-library.ts';

type Board = Pick<FirmataClient, 'pins' | 'analogPins' | 'MODES'>;

/** Parts whose pin the host drives. */
const OUTPUTS: readonly string[] = ['relay', 'buzzer', 'lamp'];

const pinOf = (part: unknown): number | string | null => {
  if (typeof part === 'number') return part;
  if (typeof part !== 'object' || part === null || !('pin' in part)) return null;
  return typeof part.pin === 'number' || typeof part.pin === 'string' ? part.pin : null;
};

const pinServes = ({ pins, analogPins, MODES }: Board, key: string, pin: number | string): boolean => {
  if (typeof pin === 'string') return analogPins[Number(pin.slice(1))] !== undefined;
  const mode = OUTPUTS.includes(key) ? MODES.OUTPUT : MODES.PULLUP;
  return pins[pin]?.supportedModes.includes(mode) ?? false;
};

/** The first part that this board has no pin for, in words; null when all of the wiring fits. */
export const misfit = (board: Board, wiring: Wiring): string | null => {
  for (const [key, part] of Object.entries(wiring)) {
    const pin = pinOf(part);
    if (pin === null || pinServes(board, key, pin)) continue;
    return `the farm file wires board.${key} to pin ${pin}, which this board does not have for it`;
  }
  return null;
};
