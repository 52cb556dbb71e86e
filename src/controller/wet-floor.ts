import { floorSigns, oneWetSign, wetSigns } from '../command/interlock.ts';
import { endingAt } from '../command/pump-guard.ts';
import { floodCut, type Schedule } from '../plan/schedule.ts';
import { afterMinutes, minutesBetween, type MonotonicMillis } from '../time/instant.ts';
import { cutFlood } from '../verify/flood.ts';
import { turnedTo, type Turn } from './turn.ts';

/** The one sign of water on the floor that is wet, in words; two of them stop the floods by the interlock. */
export const wetFloor = ({ farm, state, now }: Turn): string | null =>
  oneWetSign(farm, floorSigns(state.senses, now.monotonic));

/** Whether both signs of it are wet. */
export const floorIsFlooded = (turn: Turn): boolean =>
  wetFloor(turn) === null && wetSigns(turn.farm, floorSigns(turn.state.senses, turn.now.monotonic)) !== null;

/** Follows the reason of a flood that is owed for one that may have run out on the floor. */
export const ON_WET_FLOOR = ', with a wet floor';

/**
 * The schedule as it counts now. A flood at once after one that may have run out on the floor would pour as much after it, again
 * and again: while the sign is wet it comes by the plan, or when a bench needs it, and at once when the floor is dry.
 */
export const scheduleOnFloor = (turn: Turn): Schedule => {
  const { schedule } = turn.state;
  const waits = schedule.owed?.endsWith(ON_WET_FLOOR) === true && wetFloor(turn) !== null;
  return waits ? { ...schedule, owed: null } : schedule;
};

/** When one wet sign ends the flood under way, or what is left of a missed one; null where none does. */
export const wetFloorEnds = (turn: Turn): MonotonicMillis | null => {
  const { asked } = turn.state.guard;
  if (asked.kind === 'off' || asked.purpose === 'sip' || wetFloor(turn) === null) return null;
  const end = afterMinutes(asked.since, turn.farm.bounds.floodMinutes.shortest);
  return end < asked.until ? end : null;
};

/**
 * While one sign is wet the pump runs no longer than the shortest flood: what does not come back may run out on a floor that
 * somebody stands on. The sensor may lie as well, so the roots get that much, and the next flood comes after the same rest.
 */
export const endedByWetFloor = (turn: Turn): Turn => {
  const { state, now } = turn;
  const { guard, flood } = state;
  const why = wetFloor(turn);
  const end = wetFloorEnds(turn);
  if (guard.asked.kind === 'off' || why === null || end === null || end > now.monotonic) return turn;
  const leftMinutes = Math.max(0, minutesBetween(now.monotonic, guard.asked.until));
  return turnedTo(turn, {
    guard: endingAt(guard, now.monotonic),
    schedule: floodCut(state.schedule, leftMinutes),
    flood: flood === null ? null : cutFlood(flood, why, now.monotonic),
  });
};
