import {
  asUnset,
  looked,
  resumedTrust,
  tellsWhatSet,
  trustAtStart,
  type ClockTrust,
} from '../../src/time/clock-trust.ts';
import type { Now } from '../../src/time/instant.ts';
import { absenceOf } from '../start/absence.ts';
import { bootName, clockSource, type ClockSource } from '../start/clock-source.ts';
import { readKept } from '../storage/kept-state.ts';

/** This start of the machine. */
export interface MachineStart {
  /** The kernel's name for it; null where it has none. */
  readonly boot: string | null;
  /** What had set its clock when this host began: asked once, or the parts of the host might go by different answers. */
  readonly source: ClockSource;
}

export const machineStart = async (): Promise<MachineStart> => {
  const [boot, source] = await Promise.all([bootName(), clockSource(Date.now())]);
  return { boot, source };
};

/** Where nothing is known to have set the clock since the machine was started it goes on from the last time on the disk. */
export const doubtedIfUnset = (trust: ClockTrust, source: ClockSource): ClockTrust =>
  source === 'unknown' ? asUnset(trust) : trust;

/**
 * Trust in the clock by what the host before this one kept, as it goes on: until then there is a gap to be entered, and there
 * are calls that wait. Where nothing was kept, or nobody has read it yet, the machine may just have been started.
 */
export const clockLeft = (kept: string | null, { boot, source }: MachineStart, now: Now): ClockTrust => {
  const read = readKept(kept);
  if (read.kind !== 'found') return doubtedIfUnset(trustAtStart(now), source);
  const { state, boot: before } = read.stored;
  const absence = absenceOf({ boot: before, at: state.at }, boot, now, source);
  // Within one start of the machine all count on the same counter.
  const trust = looked(resumedTrust(state.clock, 0, absence.boot, now), now);
  return tellsWhatSet(state.clock, absence.boot) ? trust : doubtedIfUnset(trust, source);
};
