import { holdText } from '../alarm/words.ts';
import { holdCommand } from '../command/hold-command.ts';
import type { Kept } from '../ports/board.ts';
import { minutesBetween, secondsBetween } from '../time/instant.ts';
import { boardTold } from '../verify/left-flood.ts';
import { usualReturn } from '../verify/learned.ts';
import { plausibleKept } from '../verify/plausible-kept.ts';
import { farmLitresPerMinute } from '../verify/sighting.ts';
import { owing } from '../plan/schedule.ts';
import { continued } from './earlier-host.ts';
import { closedUnseen } from './judge.ts';
import { keptBelief } from './kept-belief.ts';
import { keptPump } from './kept-pump.ts';
import { keptRuns } from './kept-runs.ts';
import { turnedTo, type Turn } from './turn.ts';

/** Ends of one hold, here and on the board, are no nearer to each other than the line and the board's seconds. */
const SAME_END_SECONDS = 5;

/** The flood that was under way when the board was lost gets its one verdict, or goes on. */
const leftFlood = (turn: Turn, kept: Kept): Turn => {
  const { farm, state, now } = turn;
  if (state.flood === null) return turn;
  const usual = usualReturn(state.learned, farmLitresPerMinute(farm), state.flood.minutes);
  const told = boardTold(farm, state.flood, kept, usual, now.monotonic);
  switch (told.kind) {
    case 'runs':
    case 'rests':
      return turnedTo(turn, { flood: told.flood });
    case 'over': {
      const over = closedUnseen(turn, state.flood, told.verdict);
      return told.owed === null ? over : turnedTo(over, { schedule: owing(over.state.schedule, told.owed) });
    }
  }
};

/** Of two holds the longer one counts, wherever it was ordered: hands may be in the water. */
const keptHold = (turn: Turn, kept: Kept): Turn => {
  const { state, now } = turn;
  const ours = state.orders.hold;
  const theirs = kept.holdUntil !== null && kept.holdUntil > now.monotonic ? kept.holdUntil : now.monotonic;
  const ahead = secondsBetween(ours?.until ?? now.monotonic, theirs);
  if (ahead > SAME_END_SECONDS) {
    const hold = { from: ours?.from ?? now.monotonic, until: theirs, who: 'the board' };
    const says = `${holdText(minutesBetween(now.monotonic, theirs))}, as it stands there`;
    return turnedTo(turn, { orders: { floodNow: null, hold } }, [
      { kind: 'order', order: 'hold', who: 'the board', says },
    ]);
  }
  if (ours === null || ahead >= -SAME_END_SECONDS) return turn;
  return turnedTo(turn, {}, [], [holdCommand(state.orders, now.monotonic)]);
};

/**
 * Takes the pump back from a board that has kept the plants. It is not told off: what it does is known, and a flood
 * that runs goes on. What it gave is not given again, and what it missed is owed.
 */
export const takenBack = (given: Turn, told: Kept): Turn => {
  const { turn: before, kept: news } = continued(given, told);
  const kept = plausibleKept(before.farm, news, before.now.monotonic);
  const who = before.state.toldOff ? 'this-host' : 'another-host';
  const gap: Turn =
    kept.forgotten > 0 ? turnedTo(before, {}, [{ kind: 'kept-gap', forgotten: kept.forgotten }]) : before;
  const judged = leftFlood(gap, kept);
  const had = keptRuns(judged, kept, who);
  const held = keptHold(had, kept);
  const pumped = keptPump(held, kept);
  const belief = keptBelief(pumped, kept, who);
  // Its own floods were not seen from here: the rest counts from the end of the last.
  const memory = { ...pumped.state.memory, idleSince: null };
  return turnedTo(pumped, { belief, memory, toldOff: true, away: null });
};
