import type { Wiring } from '../../src/farm/farm.ts';
import type { FirmataClient } from './device-library.ts';

type Board = Pick<FirmataClient, 'pins' | 'analogPins' | 'MODES'>;

/** Parts whose pin the host drives; on a board with a keeper they are the keeper's, and have no mode for anybody else. */
const OUTPUTS: readonly string[] = ['relay', 'buzzer', 'lamp'];

/** Whether the host drives the outputs, or a keeper on the board does. */
export type Outputs = 'of-the-host' | 'of-the-keeper';

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
export const misfit = (board: Board, wiring: Wiring, outputs: Outputs): string | null => {
  const { probe } = wiring;
  if (outputs === 'of-the-host' && probe !== undefined && 'drivenBy' in probe)
    return 'the farm file wires a bare probe (board.probe.drivenBy), which stock firmware cannot drive; wire a module, or flash the board: rillkeeper board flash FARM --board PORT';
  for (const [key, part] of Object.entries(wiring)) {
    const pin = pinOf(part);
    if (pin === null || (outputs === 'of-the-keeper' && OUTPUTS.includes(key))) continue;
    if (pinServes(board, key, pin)) continue;
    return `the farm file wires board.${key} to pin ${pin}, which this board does not have for it`;
  }
  return null;
};
