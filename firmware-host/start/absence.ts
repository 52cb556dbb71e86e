import type { Away, Boot } from '../../src/controller.ts';
import { isPlausible } from '../../src/time/clock-trust.ts';
import { minutesBetween, type Now } from '../../src/time/instant.ts';
import type { ClockSource } from './clock-source.ts';

/** When a process last wrote what the next one goes on from, on the counter of the machine. */
export interface Left {
  /** The kernel's name for the time since the machine was started; null where it has none. */
  readonly boot: string | null;
  readonly at: Now;
}

export interface Absence {
  readonly away: Away;
  readonly boot: Boot;
}

/**
 * How long nobody was there. Since the same start of the machine its monotonic clock tells, which includes suspend; else the
 * wall clock, where both ends are plausible and something better than the last time on the disk has set it.
 */
export const absenceOf = (
  { boot, at }: Left,
  bootNow: string | null,
  now: Now,
  source: ClockSource,
): Absence => {
  if (boot !== null && boot === bootNow) {
    const minutes = minutesBetween(at.monotonic, now.monotonic);
    return { away: minutes < 0 ? 'unknown' : minutes, boot: 'same' };
  }
  if (source === 'unknown' || !isPlausible(at.wall) || !isPlausible(now.wall) || now.wall < at.wall) {
    return { away: 'unknown', boot: 'another' };
  }
  return { away: (now.wall - at.wall) / 60_000, boot: 'another' };
};
