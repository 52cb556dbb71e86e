import { floodEnded } from '../plan/schedule.ts';
import { farmLitresPerMinute } from '../verify/sighting.ts';
import { openUntil, unheardVerdict } from '../verify/left-flood.ts';
import { usualReturn } from '../verify/learned.ts';
import { closedUnseen } from './judge.ts';
import { turnedTo, type Turn } from './turn.ts';

/** The board stops a run by itself at the end that it was given. */
const pumpRanOut = (turn: Turn): Turn => {
  const { guard, schedule } = turn.state;
  const { asked } = guard;
  if (asked.kind === 'off' || asked.until > turn.now.monotonic) return turn;
  return turnedTo(turn, {
    guard: { ...guard, asked: { kind: 'off', since: asked.until } },
    ...(asked.purpose === 'sip' ? {} : { schedule: floodEnded(schedule, asked.until) }),
  });
};

/**
 * While a board that keeps the plants is out of hearing: nothing is asked of it, and no flood of the day plan falls
 * due, since it floods by its own table. The flood under way stays open for as long as it may.
 */
export const whileAway = (before: Turn): Turn => {
  const turn = pumpRanOut(before);
  const { farm, state, now } = turn;
  const { flood } = state;
  if (flood === null || now.monotonic < openUntil(farm, flood)) return turn;
  const usual = usualReturn(state.learned, farmLitresPerMinute(farm), flood.minutes);
  return closedUnseen(turn, flood, unheardVerdict(farm, flood, usual));
};
