import type { Signals } from '../ports/board.ts';
import { secondsBetween, type MonotonicMillis } from '../time/instant.ts';
import { isActive, type Alarms } from './alarm.ts';

/** Whoever has hands in the water hears this long before that the pump may start again. */
const BEFORE_HOLD_ENDS_SECONDS = 10;

/**
 * The lamp is lit while anything is wrong; the buzzer sounds for what nobody has acknowledged and cannot wait,
 * and before the end of a hold.
 */
export const signals = (
  alarms: Alarms,
  holdEndsAt: MonotonicMillis | null,
  now: MonotonicMillis,
): Signals => {
  const urgent = alarms.some(
    ({ state, card }) => state === 'active-unacknowledged' && card.priority === 'high',
  );
  const startNears = holdEndsAt !== null && secondsBetween(now, holdEndsAt) <= BEFORE_HOLD_ENDS_SECONDS;
  return {
    buzzer: urgent || startNears ? 'sounding' : 'silent',
    lamp: alarms.some(isActive) ? 'lit' : 'dark',
  };
};
