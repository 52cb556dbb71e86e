import { holdText } from '../alarm/words.ts';
import { holdCommand } from '../command/hold-command.ts';
import type { Kept } from '../ports/board.ts';
import { holdsOf, withHold } from '../command/orders.ts';
import { minutesBetween, secondsBetween, type MonotonicMillis } from '../time/instant.ts';
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

/** The board's hold stands beside those of here, unless it is one of them: hands may be in the water. */
const withTheirs = (turn: Turn, theirs: MonotonicMillis): Turn => {
  const { orders } = turn.state;
  const isOurs = holdsOf(orders).some(
    ({ until }) => Math.abs(secondsBetween(until, theirs)) <= SAME_END_SECONDS,
  );
  const from = turn.now.monotonic;
  if (theirs <= from || isOurs) return turn;
  const says = `${holdText(minutesBetween(from, theirs))}, as it stands there`;
  return turnedTo(turn, { orders: withHold(orders, { from, until: theirs, who: 'the board' }) }, [
    { kind: 'order', order: 'hold', who: 'the board', says },
  ]);
};

/** Of holds the longest counts, wherever it was ordered; the board hears of one that is longer than its own. */
const keptHold = (turn: Turn, kept: Kept): Turn => {
  const now = turn.now.monotonic;
  const theirs = kept.holdUntil ?? now;
  const after = withTheirs(turn, theirs);
  const { orders } = after.state;
  const ahead = orders.hold === null ? 0 : secondsBetween(theirs > now ? theirs : now, orders.hold.until);
  return ahead > SAME_END_SECONDS ? turnedTo(after, {}, [], [holdCommand(orders, now)]) : after;
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
