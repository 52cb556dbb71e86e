import { guardAtStart } from '../command/pump-guard.ts';
import type { Link } from '../ports/board.ts';
import { stopped } from '../verify/flood-verdict.ts';
import { closed } from './judge.ts';
import { awayFrom, isAway } from './state.ts';
import { takenBack } from './taken-back.ts';
import { toldOff } from './told-off.ts';
import { turnedTo, type Turn } from './turn.ts';

/**
 * With a stock board that is lost nobody knows what the pump does. One that keeps the plants goes on with what was
 * asked of it: the flood under way stays open until it is heard again.
 */
const lost = (turn: Turn, link: Extract<Link, { kind: 'down' }>): Turn => {
  const { state, now } = turn;
  const away = awayFrom(state.belief, link);
  const asked = away?.keeper === 'keeps' ? state.guard.asked : guardAtStart(now.monotonic).asked;
  // Whatever was to be said in this step nobody hears.
  const mute: Turn = { ...turn, commands: [] };
  return turnedTo(mute, { link, linkDownSince: now.monotonic, away, guard: { ...state.guard, asked } }, [
    { kind: 'link-lost', why: link.why, ...(link.keeper === undefined ? {} : { keeper: link.keeper }) },
  ]);
};

/** Another board is there, or its firmware is another: what became of the flood that was left to it nobody can tell. */
const withoutKeeper = (turn: Turn): Turn => {
  const { flood } = turn.state;
  const still =
    flood !== null && isAway(turn.state)
      ? closed(turn, flood, stopped(flood, 'the board came back without its keeper', turn.now.monotonic))
      : turn;
  return toldOff(turnedTo(still, { away: null }));
};

/**
 * No command is sent while the link is down. A stock board that is back is told off first, as after a start; one
 * that kept the plants tells what it did and does.
 */
export const linked = (turn: Turn, link: Link): Turn => {
  const { state } = turn;
  const heard = turnedTo(turn, { link });
  if (link.kind === 'down') return state.link.kind === 'down' ? heard : lost(turn, link);
  const { kept } = link;
  if (state.link.kind === 'up') {
    // The board has changed hands and back while it was heard.
    return kept === undefined || kept === state.link.kept ? heard : takenBack(heard, kept);
  }
  const back = turnedTo(heard, { linkDownSince: null }, [
    { kind: 'link-found', ...(kept === undefined ? {} : { keeper: 'kept' as const }) },
  ]);
  return kept === undefined ? withoutKeeper(back) : takenBack(back, kept);
};
