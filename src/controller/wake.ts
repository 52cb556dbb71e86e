import { nextAlarmChange } from '../alarm/alarm.ts';
import { nextCallAt } from '../alarm/calls.ts';
import { nextTankLook } from '../estimate/tank-trend.ts';
import { afterSeconds, monotonicMillis, type MonotonicMillis } from '../time/instant.ts';
import { nextLook } from '../verify/watched.ts';
import { MAINS_LOST_SECONDS } from '../verify/mains-watch.ts';
import type { ControllerState } from './state.ts';

/** However quiet it is, the controller looks at its sensors this often. */
const QUIET_SECONDS = 300;
/** While the board is silent its alarm may fall due. */
const SILENT_SECONDS = 10;
/** A mains contact is looked at this often, also by whoever calls only when asked to: its loss is told within a minute. */
const MAINS_SECONDS = 30;
/** A pump that seems to run unasked is looked at again soon. */
const UNASKED_SECONDS = 30;
/** And never more often than this by its own wish. */
const BUSY_SECONDS = 1;

/** The next moment at which something may have to be decided. */
export const nextWake = (
  state: ControllerState,
  until: MonotonicMillis,
  now: MonotonicMillis,
): MonotonicMillis => {
  const moments = [afterSeconds(now, QUIET_SECONDS), until];
  if (state.flood !== null) moments.push(nextLook(state.flood, now));
  if (state.guard.asked.kind === 'on') moments.push(state.guard.asked.until);
  if (state.senses.last.mains !== undefined) {
    const { lostSince } = state.memory.mains;
    moments.push(afterSeconds(now, lostSince === null ? MAINS_SECONDS : MAINS_LOST_SECONDS));
  }
  const tankLook = nextTankLook(state.tankTrend);
  if (tankLook !== null && tankLook > now) moments.push(tankLook);
  if (state.memory.unasked !== null && state.memory.runsOn === null) {
    moments.push(afterSeconds(now, UNASKED_SECONDS));
  }
  if (state.link.kind === 'down') moments.push(afterSeconds(now, SILENT_SECONDS));
  if (state.orders.hold !== null) moments.push(state.orders.hold.until);
  const alarm = nextAlarmChange(state.alarms);
  if (alarm !== null) moments.push(alarm);
  const call = nextCallAt(state.calls, now);
  if (call !== null) moments.push(call);
  return monotonicMillis(Math.max(Math.min(...moments), afterSeconds(now, BUSY_SECONDS)));
};
