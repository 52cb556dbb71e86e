import type { ResetCause } from './registers.ts';

/** What stands in the boot section and gets the chip before the firmware does. */
export interface Bootloader {
  /** For an upload, by the cause of the reset; not named: no wait. */
  readonly waitMillis: Partial<Readonly<Record<ResetCause, number>>>;
  /**
   * How the firmware finds the chip. Some clear MCUSR, turn the watchdog off and hand the cause on in r2; others
   * touch neither, so that a wait longer than 16 ms after a watchdog reset never ends.
   */
  readonly leaves: 'all-as-found' | 'cause-in-r2';
}

/** Nothing waits: for tests of the chip alone. */
export const NO_BOOTLOADER: Bootloader = { waitMillis: {}, leaves: 'all-as-found' };
/** Register that carries the cause, by the habit of a bootloader common on these boards; from memory. */
export const HANDED_REGISTER = 2;
