import type { MonotonicMillis } from '../time/instant.ts';
import type { Seen } from '../sense/seen.ts';

/** Every due flood ends in exactly one of these. */
export type Verdict =
  | { readonly kind: 'confirmed'; readonly says: string }
  | { readonly kind: 'degraded'; readonly says: string; readonly why: 'weak' | 'cut-short' | 'stopped' }
  | { readonly kind: 'unproven'; readonly says: string }
  | { readonly kind: 'missed'; readonly says: string; readonly clue: MissClue }
  | { readonly kind: 'withheld'; readonly says: string };

/** What was seen of a missed flood: enough to say where to look first. */
export interface MissClue {
  readonly contact: Seen;
  readonly current: Seen;
  /** Whether the supply of the pump had its mains. */
  readonly mains: Seen;
  readonly tankFell: Seen;
  /** What little a meter saw come back while the pump ran, L/min; null where it saw as good as nothing. */
  readonly trickleLitresPerMinute: number | null;
  readonly startedAt: MonotonicMillis;
  /** When its water stopped, of one that had begun to give it. */
  readonly stoppedAt: MonotonicMillis | null;
  readonly deadline: MonotonicMillis;
  readonly retries: number;
}
