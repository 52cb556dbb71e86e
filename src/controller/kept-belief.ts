import { beliefAtStart, DRAIN_MINUTES, FILL_MINUTES, type Belief } from '../estimate/belief.ts';
import { hotDayUptake } from '../estimate/reference-day.ts';
import { relived, type WetSpan } from '../estimate/relived.ts';
import type { Kept, KeptRun } from '../ports/board.ts';
import { afterMinutes, minutesBetween, wallAfterMinutes, type MonotonicMillis } from '../time/instant.ts';
import { runEnd } from '../verify/kept-run.ts';
import { almanacNow } from './almanac.ts';
import type { HostBefore } from './kept-runs.ts';
import type { Turn } from './turn.ts';

/** What is longer ago says nothing of now. */
const REMEMBERED_MINUTES = 24 * 60;

/**
 * Whether the roots had its water. Of a run that a host has judged only that host knows: if it was this one, its
 * belief has counted it; if not, it may have been missed, and the time left must not be told too long.
 */
const gaveWater = ({ verdict }: KeptRun): boolean => verdict === 'confirmed' || verdict === 'unproven';

const spanOf = (run: KeptRun): WetSpan => ({
  from: afterMinutes(run.startedAt, FILL_MINUTES),
  until: afterMinutes(runEnd(run), DRAIN_MINUTES),
});

/** The belief with the floods in it that the board gave unseen, from when the board was lost, or from the first of them. */
export const keptBelief = (turn: Turn, kept: Kept, before: HostBefore): Belief => {
  const { farm, state, now } = turn;
  const spans = kept.runs
    .filter((run) => gaveWater(run) && minutesBetween(run.startedAt, now.monotonic) < REMEMBERED_MINUTES)
    .map(spanOf)
    .filter(({ from }) => from < now.monotonic);
  const [first] = spans;
  if (first === undefined) return state.belief;
  const from = before === 'another-host' ? beliefAtStart(farm, first.from) : state.away?.belief;
  if (from === undefined) return state.belief;
  const { facts, reference } = almanacNow(turn);
  const uptakeAt = (at: MonotonicMillis): number =>
    hotDayUptake(
      reference,
      now.wall === 'unknown' ? now.wall : wallAfterMinutes(now.wall, -minutesBetween(at, now.monotonic)),
    );
  return relived(from, spans, facts, uptakeAt, farm.floors.stress, now.monotonic);
};
