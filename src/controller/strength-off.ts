import type { Situation } from '../alarm/situation.ts';
import { strengthRemedy, type LoopWater, type StrengthRemedy } from '../estimate/dilution.ts';
import { minutesBetween } from '../time/instant.ts';
import type { Turn } from './turn.ts';

/** The level of the last rest is believed for so long. Judgement. */
const LEVEL_MINUTES = 120;
/** A probe that has given no good reading for so long is told to be silent. */
const UNREAD_MINUTES = 10;

/**
 * By the level of the last rest, and what the roots hold of the same water. Where nothing reads the level, the usual one alone:
 * what plants drank since it was there makes up for what they hold, and too little water is mended by another step.
 */
const loopWater = ({ farm, state, now }: Turn): LoopWater => {
  const { last } = state.tankTrend;
  const { usualLitres } = farm.tank;
  if (!farm.evidence.tankLevel || last === null || minutesBetween(last.at, now.monotonic) > LEVEL_MINUTES)
    return { tankLitres: usualLitres, loopLitres: usualLitres };
  const heldLitres = state.almanac.facts.reduce(
    (sum, { capacityLitres }, place) => sum + (state.belief.benches[place]?.theta ?? 0) * capacityLitres,
    0,
  );
  return { tankLitres: last.litres, loopLitres: last.litres + heldLitres };
};

const remedyOf = (turn: Turn, side: 'strong' | 'weak', millisiemensPerCm: number): StrengthRemedy =>
  side === 'weak' ? { kind: 'add-stock' } : strengthRemedy(turn.farm, loopWater(turn), millisiemensPerCm);

/** A solution outside its band, with what brings it back. */
export const strengthOff = (turn: Turn): Situation['strengthOff'] => {
  const { is: side, read, instead } = turn.state.memory.strength;
  if (side === 'usual' || read === null) return null;
  const { millisiemensPerCm, at } = read;
  return {
    side,
    millisiemensPerCm,
    unreadSince: minutesBetween(at, turn.now.monotonic) < UNREAD_MINUTES ? null : at,
    remedy: instead === null ? remedyOf(turn, side, millisiemensPerCm) : { kind: 'wait' },
  };
};
