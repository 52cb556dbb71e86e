import { realTimers } from '../../firmware-host/devices/timers.ts';
import { createEmulatedBoard } from '../../sim/board/avr/emulated-board.ts';
import type { Farm, Wiring } from '../../src/farm/farm.ts';
import { imageFor } from '../keeper/image.ts';
import { onPty, type PtyBoard } from './pty-board.ts';

export interface EmulatedPty extends PtyBoard {
  /** When the relay was pulled and let go since the board had power, milliseconds by the clock of the board. */
  readonly relay: readonly { readonly pulled: boolean; readonly at: number }[];
  readonly isPulled: () => boolean;
}

/** A board whose chip carries out the compiled firmware in real time, with a supply of its own, behind a pseudo-terminal. */
export const emulatedOnPty = async (farm: Farm, wiring: Wiring): Promise<EmulatedPty> => {
  const relay: { readonly pulled: boolean; readonly at: number }[] = [];
  const isPulled = (): boolean => relay.at(-1)?.pulled === true;
  const startMillis = realTimers.now();
  const board = createEmulatedBoard({
    flash: imageFor(farm, wiring),
    startMillis,
    seed: 1,
    world: {
      // The tank float, a contact that opens when the tank is low, is closed.
      readDigital: (pin) => (pin === wiring.tankFloat?.pin ? 0 : 'floating'),
      readAnalog: () => 512,
      drive: (pin, level) => {
        const pulled = level === 1;
        if (pin === wiring.relay.pin && pulled !== isPulled())
          relay.push({ pulled, at: board.chip.nowMillis() });
      },
    },
  });
  board.powerOn(startMillis);
  return { ...(await onPty(board)), relay, isPulled };
};
