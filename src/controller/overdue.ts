import type { TimeLeft } from '../estimate/time-left.ts';
import type { Pace } from '../plan/pace.ts';
import { minutesBetween } from '../time/instant.ts';
import type { Memory } from './state.ts';
import type { Turn } from './turn.ts';

/** So long after the longest rest a flood should have begun, whatever the plan, and so little is left then. Judgement. */
const OVER_MINUTES = 10;
const LEFT_MINUTES = 30;

/**
 * The last watch of all: nothing forbids a flood, none has failed, and yet none has begun. Whatever kept it back, a limit of
 * the pump or a defect of this program, the plants do not live on reasons, and people are told. Null while all is well.
 */
export const overdue = (
  { state, now }: Turn,
  { longestRestMinutes }: Pace,
  left: () => TimeLeft,
): Memory['shut'] => {
  const { asked } = state.guard;
  if (state.flood !== null || asked.kind === 'on' || asked.since === null) return null;
  if (minutesBetween(asked.since, now.monotonic) < longestRestMinutes + OVER_MINUTES) return null;
  if (left().minutes > LEFT_MINUTES) return null;
  return { since: asked.since, leftMinutes: 0, reason: 'no flood has begun, though one is due', by: 'water' };
};
