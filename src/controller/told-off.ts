import { guardAtStart } from '../command/pump-guard.ts';
import { turnedTo, type Turn } from './turn.ts';

/** The first word to a board is off: a flood from before must not run into the next one. */
export const toldOff = (turn: Turn): Turn =>
  turnedTo(
    turn,
    {
      toldOff: true,
      earlier: null,
      guard: { ...turn.state.guard, asked: guardAtStart(turn.now.monotonic).asked },
    },
    [{ kind: 'pump-asked', pump: 'off', longestSeconds: null }],
    [{ kind: 'pump-off' }],
  );
