import { floodEnded, owing } from '../plan/schedule.ts';
import type { Kept, KeptRun } from '../ports/board.ts';
import { afterMinutes, afterSeconds, minutesBetween, type MonotonicMillis } from '../time/instant.ts';
import { missed } from '../verify/flood-verdict.ts';
import type { Flood } from '../verify/flood.ts';
import { isSameMoment } from '../verify/kept-run.ts';
import { usualReturn } from '../verify/learned.ts';
import { farmLitresPerMinute } from '../verify/sighting.ts';
import type { Verdict } from '../verify/verdict.ts';
import { closed, withAlarmsOf } from './judge.ts';
import type { Earlier } from './state.ts';
import { turnedTo, type Turn } from './turn.ts';

/** A flood whose pump was left on for longer than this past its end tells nothing any more. */
const PAST_END_MINUTES = 5;

/**
 * Whether the earlier host had counted a run of the board's: one that was over before it was last heard. Held by the middle
 * of the run, since the moments of the board are as wrong as its clock: so half a run is left for error on either side.
 */
const wasCounted = (
  { startedAt, seconds }: KeptRun,
  { heardUntil }: Earlier,
  flood: Flood | null,
  now: MonotonicMillis,
): boolean => {
  // What was under way then has no verdict yet.
  if (flood !== null && (startedAt >= flood.attemptAt || isSameMoment(startedAt, flood.attemptAt, now)))
    return false;
  return afterSeconds(startedAt, seconds / 2) <= heardUntil;
};

export interface Continued {
  readonly turn: Turn;
  readonly kept: Kept;
}

/**
 * Before a board that keeps the plants is listened to for the first time: where the earlier host had it in hand, this one
 * goes on as if only the line had been lost, and what that one has counted is not counted again.
 */
export const continued = (turn: Turn, kept: Kept): Continued => {
  const { earlier, flood } = turn.state;
  if (earlier === null) return { turn, kept };
  if (earlier.keeper === 'none') return { turn: turnedTo(turn, { earlier: null }), kept };
  return {
    turn: turnedTo(turn, { earlier: null, toldOff: true }),
    kept: {
      ...kept,
      runs: kept.runs.filter((run) => !wasCounted(run, earlier, flood, turn.now.monotonic)),
    },
  };
};

/** Why the flood after one in which a host ended is owed. */
const HOST_ENDED = 'the host ended in the last one';

interface Left {
  readonly verdict: Verdict;
  /** Whether its rest counts. */
  readonly rests: boolean;
}

/**
 * No water in a whole try, or in two floods on end that could be read: a host that ends again and again must not hide a dead
 * pump by never looking for long enough.
 */
const showedNone = (flood: Flood): boolean =>
  (flood.waterFirstAt === null || flood.goneSince !== null) &&
  (flood.retries > 0 ||
    flood.phase.kind === 'pausing' ||
    (flood.readMinutes > 0 && flood.reason.includes(HOST_ENDED)));

/** What became of it, as far as a stock board lets anybody know. */
const leftVerdict = ({ farm, state }: Turn, flood: Flood, pumpUntil: MonotonicMillis): Left => {
  const { phase, minutes } = flood;
  if (showedNone(flood)) {
    return {
      verdict: missed(farm, flood, usualReturn(state.learned, farmLitresPerMinute(farm), minutes)),
      rests: false,
    };
  }
  const ran = phase.kind === 'running' ? minutesBetween(flood.attemptAt, pumpUntil) : minutes;
  const isLost = pumpUntil > afterMinutes(phase.endsAt, PAST_END_MINUTES);
  if (phase.kind === 'draining' || (!isLost && ran >= minutes / 2)) {
    const most = Math.min(minutes, ran).toFixed(0);
    const says = `the host ended in it; its pump ran for about ${most} of ${minutes.toFixed(0)} min`;
    return { verdict: { kind: 'unproven', says }, rests: true };
  }
  const says = 'the host ended in it, and nobody knows how long its pump ran';
  return { verdict: { kind: 'withheld', says }, rests: false };
};

/**
 * The flood in which an earlier host ended, where no board can tell what became of it, gets its one verdict at once. If it may
 * have given less than half of its water its rest does not count, and another is owed.
 */
export const leftOver = (turn: Turn): Turn => {
  const { earlier, flood, schedule } = turn.state;
  if (earlier?.keeper !== 'none') return turn;
  const begun = turnedTo(turn, { earlier: null });
  if (flood === null) return begun;
  const { verdict, rests } = leftVerdict(turn, flood, earlier.pumpUntil);
  const judged = closed(begun, flood, verdict);
  const over = verdict.kind === 'missed' ? judged : withAlarmsOf(turn, judged);
  const before = { ...over.state.schedule, lastEnd: schedule.lastEnd };
  if (!rests) return turnedTo(over, { schedule: owing(before, HOST_ENDED) });
  const ended = flood.phase.kind === 'running' ? floodEnded(before, earlier.pumpUntil) : before;
  return turnedTo(over, { schedule: ended });
};
