import type { MissClue } from '../verify/verdict.ts';

/** What was seen, before "since …": the sentence a person hears first. */
export const missSeen = (clue: MissClue): string => {
  if (clue.contact === 'not-seen') return 'The relay did not close, no water came back';
  if (clue.current === 'not-seen') return 'The pump drew no current, no water came back';
  if (clue.tankFell === 'seen') return 'The tank fell but no water came back';
  if (clue.current === 'seen') return 'Pump ran, no water came back';
  return 'Pump was switched on, no water came back';
};

/** Where to look first. Every way that leads to wet hands says to pull the plug. */
export const missFirstAction = (clue: MissClue): string => {
  const beforeHands = 'Pull the plug before you reach in.';
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
