import type { Kept, KeptRun } from '../../../src/ports/board.ts';
import { minute } from '../../support/moments.ts';

/** A board that has nothing to tell. */
export const NOTHING_KEPT: Kept = { runs: [], forgotten: 0, running: null, lastFlood: null, holdUntil: null };

/** A flood of 20 min that the board began, ended and saw confirmed; its start in minutes. */
export const keptRun = (start: number, told: Partial<Omit<KeptRun, 'startedAt'>> = {}): KeptRun => ({
  startedAt: minute(start),
  seconds: 1200,
  begunBy: 'board',
  endedBy: 'board',
  verdict: 'confirmed',
  ...told,
});

export const running = (start: number, until: number): NonNullable<Kept['running']> => ({
  startedAt: minute(start),
  until: minute(until),
});
