import { drunkLitresPerHourMost } from '../estimate/tank-drunk.ts';
import { NO_TREND, tankLooked, type TankLook } from '../estimate/tank-trend.ts';
import { minutesBetween } from '../time/instant.ts';
import type { Sighting } from '../verify/sighting.ts';
import { isAway, lastFlood, type ControllerState } from './state.ts';
import { turnedTo, type Turn } from './turn.ts';

/** Contact and current follow an off command at once; what they show later is a pump that runs unasked. */
const POWER_OFF_MINUTES = 1;

const pumpNow = ({ state, now }: Turn, seen: Sighting): TankLook['pump'] => {
  const { asked } = state.guard;
  if (state.link.kind === 'down' || isAway(state)) return { kind: 'unknown' };
  if (asked.kind === 'on') return { kind: 'runs' };
  if (asked.since === null || state.memory.runsOn !== null) return { kind: 'unknown' };
  const powered = seen.current === 'seen' || seen.contact === 'seen';
  return powered && minutesBetween(asked.since, now.monotonic) > POWER_OFF_MINUTES
    ? { kind: 'unknown' }
    : { kind: 'rests', since: asked.since };
};

const heldLitres = ({ belief, almanac }: ControllerState): number =>
  almanac.facts.reduce(
    (sum, { capacityLitres }, place) => sum + (belief.benches[place]?.theta ?? 0) * capacityLitres,
    0,
  );

/** Keeps the trend of the tank where a sensor reads its level. */
export const tankWatched = (turn: Turn, seen: Sighting, millimetresPerHour: number): Turn => {
  const { farm, state, now } = turn;
  if (!farm.evidence.tankLevel)
    return state.tankTrend === NO_TREND ? turn : turnedTo(turn, { tankTrend: NO_TREND });
  const look: TankLook = {
    pump: pumpNow(turn, seen),
    // While much still comes back, no moment is like another.
    litres:
      seen.returnShows === 'seen' && seen.water !== 'unknown' ? undefined : (seen.tankLitres ?? undefined),
    lastFlood: lastFlood(state.memory),
    drinkLitresPerHourMost: drunkLitresPerHourMost(state.almanac.facts, millimetresPerHour),
    heldLitres: heldLitres(state),
  };
  return turnedTo(turn, { tankTrend: tankLooked(farm, state.tankTrend, look, now.monotonic) });
};
