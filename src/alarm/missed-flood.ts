import type { MissClue } from '../verify/verdict.ts';

/** What was seen of the water, before "since …". */
const waterSeen = ({ trickleLitresPerMinute: trickle }: MissClue): string =>
  trickle === null ? 'no water came back' : `only ${trickle.toFixed(0)} L/min came back`;

/** What was seen, before "since …": the sentence a person hears first. */
export const missSeen = (clue: MissClue): string => {
  if (clue.mains === 'not-seen') return `The mains are lost and the pump has no power, ${waterSeen(clue)}`;
  if (clue.contact === 'not-seen') return `The relay did not close, ${waterSeen(clue)}`;
  if (clue.current === 'not-seen') return `The pump drew no current, ${waterSeen(clue)}`;
  if (clue.tankFell === 'seen') return `The tank fell but ${waterSeen(clue)}`;
  if (clue.current === 'seen') return `Pump ran, ${waterSeen(clue)}`;
  return `Pump was switched on, ${waterSeen(clue)}`;
};

/** What to do where the pump has no power. */
export const NO_MAINS_FIRST_ACTION =
  'Look at fuse and residual-current device; leave mains work to a licensed person. If it lasts, carry water to the benches by hand.';

/** Where to look first. Every way that leads to wet hands says to pull the plug. */
export const missFirstAction = (clue: MissClue): string => {
  const beforeHands = 'Pull the plug before you reach in.';
  if (clue.mains === 'not-seen') return NO_MAINS_FIRST_ACTION;
  if (clue.contact === 'not-seen') {
    return 'Look at the board and its relay first; the pump can be run from its own plug meanwhile.';
  }
  if (clue.current === 'not-seen') {
    return 'Is the pump plugged in? Then look at fuse and residual-current device; leave mains work to a licensed person.';
  }
  if (clue.tankFell === 'seen') {
    return `Look for a pipe that came off between pump and benches first, then at the flow sensor. ${beforeHands}`;
  }
  if (clue.current === 'seen') {
    return `Look at the filter first, then the pump inlet, then for a pipe that came off. ${beforeHands}`;
  }
  return `Is the pump plugged in? Then look at the filter and the pump inlet. ${beforeHands}`;
};
