import type { Farm } from '../farm/farm.ts';
import type { Kept, KeptRun } from '../ports/board.ts';
import { afterMinutes, monotonicMillis, type MonotonicMillis } from '../time/instant.ts';
import { closing } from './flood-verdict.ts';
import { deadlineMinutes, NOTHING_SEEN, type Flood } from './flood.ts';
import { isSameMoment, keptVerdict } from './kept-run.ts';
import type { Verdict } from './verdict.ts';

/**
 * A flood of the host that was under way when the board was lost, and that the board was left to go on with. It stays
 * open until the board tells what became of it, but not for ever, and gets one verdict in all.
 */

/** Until when it may stay open: no board runs it longer, and every flood gets its verdict by its deadline or its end. */
export const openUntil = (farm: Farm, { phase, startedAt, lagMinutes }: Flood): MonotonicMillis =>
  monotonicMillis(Math.max(phase.endsAt, afterMinutes(startedAt, deadlineMinutes(farm, lagMinutes))));

/** By what this host saw of one that is known to have run: water that came back counts, all else is not known. */
const unseenVerdict = (farm: Farm, flood: Flood, usualLitresPerMinute: number): Verdict =>
  flood.waterFirstAt === null
    ? { kind: 'unproven', says: 'the board went on with it, and nobody saw whether water came back' }
    : closing(farm, flood, usualLitresPerMinute);

/** Where nobody knows either how long it ran, at least half of its water must have been seen. */
const halfUnseenVerdict = (farm: Farm, flood: Flood, usualLitresPerMinute: number): Verdict =>
  flood.waterFirstAt !== null && flood.waterMinutes < flood.minutes / 2
    ? {
        kind: 'unproven',
        says: `water came back, but nobody saw more than ${flood.waterMinutes.toFixed(0)} of ${flood.minutes.toFixed(0)} min of it`,
      }
    : unseenVerdict(farm, flood, usualLitresPerMinute);

/** The verdict of one that nobody has told of in time. */
export const unheardVerdict = (farm: Farm, flood: Flood, usualLitresPerMinute: number): Verdict =>
  flood.phase.kind === 'pausing'
    ? { kind: 'withheld', says: 'left to the board, which does not answer' }
    : halfUnseenVerdict(farm, flood, usualLitresPerMinute);

export type BoardTold =
  /** `owed` where nobody knows whether it gave water. */
  | { readonly kind: 'over'; readonly verdict: Verdict; readonly owed: string | null }
  /** It runs at this moment. */
  | { readonly kind: 'runs'; readonly flood: Flood }
  /** The pump rests, as the host had left it: the flood goes on as it was. */
  | { readonly kind: 'rests'; readonly flood: Flood };

const over = (verdict: Verdict): BoardTold => ({ kind: 'over', verdict, owed: null });

const servedVerdict = (farm: Farm, flood: Flood, run: KeptRun, usualLitresPerMinute: number): Verdict => {
  const verdict = keptVerdict(farm, run, flood.lagMinutes);
  const own = unseenVerdict(farm, flood, usualLitresPerMinute);
  return verdict === null || (verdict.kind === 'unproven' && own.kind !== 'unproven') ? own : verdict;
};

/** The flood as it is when the board has it running still, or has begun it anew meanwhile. */
const running = (flood: Flood, run: NonNullable<Kept['running']>, now: MonotonicMillis): Flood => {
  const heard = { ...flood, lookedAt: now, goneSince: null, unwatchedUntil: now };
  if (isSameMoment(run.startedAt, flood.attemptAt, now)) {
    const endsAt = afterMinutes(flood.attemptAt, flood.minutes);
    return { ...heard, phase: { kind: 'running', endsAt } };
  }
  return {
    ...heard,
    retries: flood.retries + 1,
    attemptAt: run.startedAt,
    phase: { kind: 'running', endsAt: run.until },
    ...NOTHING_SEEN,
  };
};

/**
 * What the board tells of it: any run of the same due flood that gave water decides; else what runs now is its next
 * attempt; else the last run that the board has judged; else what this host saw.
 */
export const boardTold = (
  farm: Farm,
  flood: Flood,
  kept: Kept,
  usualLitresPerMinute: number,
  now: MonotonicMillis,
): BoardTold => {
  const isOfIt = (startedAt: MonotonicMillis): boolean =>
    startedAt >= flood.attemptAt || isSameMoment(startedAt, flood.attemptAt, now);
  const runs = kept.runs.filter(({ startedAt }) => isOfIt(startedAt));
  const served =
    runs.find(({ verdict }) => verdict === 'confirmed') ?? runs.find(({ verdict }) => verdict === 'unproven');
  if (served !== undefined) return over(servedVerdict(farm, flood, served, usualLitresPerMinute));
  if (kept.running !== null && isOfIt(kept.running.startedAt)) {
    return { kind: 'runs', flood: running(flood, kept.running, now) };
  }
  const judged = runs.findLast(({ verdict }) => verdict !== 'judged-by-host');
  if (judged !== undefined) {
    const verdict = keptVerdict(farm, judged, flood.lagMinutes);
    const sip: Verdict = { kind: 'degraded', says: 'the board gave only a sip', why: 'cut-short' };
    return over(verdict ?? sip);
  }
  if (flood.phase.kind !== 'running') {
    return { kind: 'rests', flood: { ...flood, lookedAt: now, unwatchedUntil: now } };
  }
  if (runs.length > 0) return over(unseenVerdict(farm, flood, usualLitresPerMinute));
  const says = 'the board has forgotten how it ended';
  return { kind: 'over', verdict: { kind: 'unproven', says }, owed: 'nobody knows how the last one ended' };
};
