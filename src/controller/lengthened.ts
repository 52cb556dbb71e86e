import { allowsWhole } from '../command/tank-rule.ts';
import type { Intention } from '../plan/intention.ts';
import { goodValue } from '../sense/reading.ts';
import { switched, tankLitres } from '../sense/senses.ts';
import type { Turn } from './turn.ts';

type Flood = Extract<Intention, { kind: 'flood' }>;

/** Whether something that is fitted says that there is water in the tank. */
const tankIsSeen = ({ farm, state, now }: Turn): boolean => {
  const float = farm.evidence.tankFloat
    ? goodValue(switched(state.senses, 'tank-float', now.monotonic))
    : undefined;
  const litres = farm.evidence.tankLevel ? goodValue(tankLitres(state.senses, now.monotonic)) : undefined;
  return float === false || (litres !== undefined && litres > 2 * farm.tank.dryLitres);
};

/**
 * A flood after one whose return was weak runs for the longest that the bounds allow: less water a minute needs more minutes
 * to reach the roots. Over twenty days in which a filter clogs to a seventh of its flow this left the benches at least as wet
 * as a flood more each time did, with fewer pump hours. Only while the tank is seen to hold water: a pipe that came off looks
 * weak as well, and takes the tank with it.
 */
export const lengthened = (turn: Turn, wish: Flood): Flood => {
  const { longest } = turn.farm.bounds.floodMinutes;
  const { degraded } = turn.state.memory;
  if (
    degraded?.why !== 'weak' ||
    !allowsWhole(turn.state.tank) ||
    wish.minutes >= longest ||
    !tankIsSeen(turn)
  )
    return wish;
  return { ...wish, minutes: longest, reason: `${wish.reason}; longer, since the last return was weak` };
};
