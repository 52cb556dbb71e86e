import type { Situation } from '../alarm/situation.ts';
import { minutesBetween } from '../time/instant.ts';
import type { Memory } from './state.ts';
import type { Turn } from './turn.ts';

/** A cable that is put back within this is no alarm; the benches do not feel it. */
const BOARD_SILENT_MINUTES = 0.5;
/** One that comes back for less than this has not come back: a plug that wavers lets no flood be seen. */
const BOARD_BACK_MINUTES = 1;

/** Since when the board has not been heard for a minute in one piece. */
export const lineGoneNow = ({ state, now }: Turn): Memory['lineGone'] => {
  const { linkDownSince } = state;
  const { lineGone } = state.memory;
  const heardUntil = linkDownSince ?? now.monotonic;
  const before =
    lineGone !== null && minutesBetween(lineGone.lastAt, heardUntil) < BOARD_BACK_MINUTES ? lineGone : null;
  return linkDownSince === null ? before : { since: before?.since ?? linkDownSince, lastAt: now.monotonic };
};

/** What is told of a board that has been silent for too long, or wavers. */
export const boardSilent = ({ state, now }: Turn): Situation['boardSilent'] => {
  const { lineGone } = state.memory;
  return lineGone === null ||
    state.link.kind === 'up' ||
    minutesBetween(lineGone.since, now.monotonic) < BOARD_SILENT_MINUTES
    ? null
    : { since: lineGone.since, why: state.link.why };
};
