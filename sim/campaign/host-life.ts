import { wallMillis, monotonicMillis, type Now } from '../../src/time/instant.ts';
import { standingHost, type HostFault, type Script } from './script.ts';

const HOUR = 3_600_000;
/** A flapping line is there and gone for so long each. */
const FLAP_MILLIS = 7000;
/** A machine that has just started counts from about here. */
const BOOT_MILLIS = 12_000;

const CLOCKS = ['clock-ahead', 'clock-back', 'clock-years'] as const;

/** Whether the cable of the board is in its socket. */
export const isPlugged = (script: Script, atMillis: number): boolean => {
  if (standingHost(script, 'link-lost', atMillis) !== null) return false;
  const flaps = standingHost(script, 'link-flapping', atMillis);
  return flaps === null || Math.floor((atMillis - flaps.fromMillis) / FLAP_MILLIS) % 2 === 1;
};

/** Whether the board is heard at this moment. */
export const linkIsUp = (script: Script, atMillis: number): boolean =>
  isPlugged(script, atMillis) && standingHost(script, 'board-reset', atMillis) === null;

/** The clocks of a host that was switched on at `bornMillis`: monotonic time counts from there. */
export const clocksAt = (script: Script, bornMillis: number, atMillis: number): Now => {
  const stepped = CLOCKS.reduce(
    (sum, kind) => sum + (standingHost(script, kind, atMillis)?.amount ?? 0) * HOUR,
    0,
  );
  const unset = standingHost(script, 'clock-unset', atMillis);
  return {
    monotonic: monotonicMillis(atMillis - bornMillis + BOOT_MILLIS),
    wall: wallMillis(unset === null ? atMillis + stepped : atMillis - unset.fromMillis),
  };
};

/** Dead or frozen: until when, or null while it lives. */
export const absentUntil = (script: Script, atMillis: number): HostFault | null =>
  standingHost(script, 'host-killed', atMillis) ?? standingHost(script, 'host-frozen', atMillis);

/** The next moment after this one at which something begins or ends that a host or its line feels. */
export const nextHostChange = (script: Script, atMillis: number): number => {
  let next = Infinity;
  for (const fault of script.host) {
    for (const moment of [fault.fromMillis, fault.untilMillis])
      if (moment > atMillis) next = Math.min(next, moment);
    if (fault.kind === 'link-flapping' && fault.fromMillis <= atMillis && atMillis < fault.untilMillis) {
      const flap = Math.floor((atMillis - fault.fromMillis) / FLAP_MILLIS) + 1;
      next = Math.min(next, fault.fromMillis + flap * FLAP_MILLIS);
    }
  }
  return next;
};
