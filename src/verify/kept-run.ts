import type { Farm } from '../farm/farm.ts';
import type { KeptRun } from '../ports/board.ts';
import { afterMinutes, afterSeconds, secondsBetween, type MonotonicMillis } from '../time/instant.ts';
import { deadlineMinutes, NO_POWER_SEEN } from './flood.ts';
import type { Verdict } from './verdict.ts';

/** The board tells whole seconds of its own clock, which may be wrong by 5 % before anybody calls it broken. */
const SAME_MOMENT = { seconds: 5, share: 0.05 } as const;

/** Whether a moment of the board and one of the host may be one and the same, seen from now. */
export const isSameMoment = (one: MonotonicMillis, other: MonotonicMillis, now: MonotonicMillis): boolean =>
  Math.abs(secondsBetween(one, other)) <=
  SAME_MOMENT.seconds + SAME_MOMENT.share * Math.max(secondsBetween(one, now), secondsBetween(other, now), 0);

export const runEnd = ({ startedAt, seconds }: Pick<KeptRun, 'startedAt' | 'seconds'>): MonotonicMillis =>
  afterSeconds(startedAt, seconds);

const minutesText = ({ seconds }: KeptRun): string =>
  seconds < 90 ? `${Math.round(seconds)} s` : `${Math.round(seconds / 60)} min`;

/** What a run that the board has judged comes to; null where it was a sip, or the board left it to the host. */
export const keptVerdict = (farm: Farm, run: KeptRun, lagMinutes: number): Verdict | null => {
  switch (run.verdict) {
    case 'confirmed':
      return { kind: 'confirmed', says: `the board saw its water come back, in ${minutesText(run)}` };
    case 'unproven':
      return { kind: 'unproven', says: 'the board gave it; nobody saw whether its water came back' };
    case 'missed':
      return {
        kind: 'missed',
        says: `the board saw no water come back in ${minutesText(run)}`,
        clue: {
          ...NO_POWER_SEEN,
          tankFell: 'unknown',
          trickleLitresPerMinute: null,
          startedAt: run.startedAt,
          stoppedAt: null,
          deadline: afterMinutes(run.startedAt, deadlineMinutes(farm, lagMinutes)),
          retries: 0,
        },
      };
    case 'cut-short':
      return { kind: 'degraded', says: `the board stopped it after ${minutesText(run)}`, why: 'cut-short' };
    case 'sip':
    case 'judged-by-host':
      return null;
  }
};
