import type { MissClue } from '../verify/verdict.ts';
import type { MissSeen } from './facts.ts';

/** What a person hears first of a missed flood: the thing nearest to the power that was not as it should be. */
export const missSeen = (clue: MissClue): MissSeen => {
  if (clue.mains === 'not-seen') return 'no-mains';
  if (clue.contact === 'not-seen') return 'no-contact';
  if (clue.current === 'not-seen') return 'no-current';
  if (clue.tankFell === 'seen') return 'tank-fell';
  return clue.current === 'seen' ? 'pump-ran' : 'switched-on';
};
