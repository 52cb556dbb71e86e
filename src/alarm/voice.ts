import type { MonotonicMillis } from '../time/instant.ts';
import type { Card } from './card.ts';

/** How far one alarm has been carried to people; plain data. */
export interface Voice {
  /** Its newest words: those of an alarm that is over are needed once more. */
  readonly card: Card;
  /** Which raising of the alarm it belongs to. */
  readonly raisedAt: MonotonicMillis;
  /** Since when it is this trouble: of one that comes and goes, its first raising. */
  readonly since: MonotonicMillis;
  /** When its condition went last; null while it stands. */
  readonly endedAt: MonotonicMillis | null;
  /** It has come again soon after its end. */
  readonly wavers: boolean;
  /** Minutes left at its last call. */
  readonly leftMinutes: number | null;
  /** Not yet called; called and not answered; acknowledged or put off; over, and still to be said. */
  readonly phase: 'waiting' | 'called' | 'seen' | 'over';
  /** Who has acknowledged it; null where nobody has, or only before it was raised this time. */
  readonly seenBy: string | null;
  /** How many persons down the rota the last call went; −1 before the first, and after an answer. */
  readonly rung: number;
  readonly calledAt: MonotonicMillis | null;
  /** When it is to be called next; null when it is not, as while another alarm speaks for it. */
  readonly dueAt: MonotonicMillis | null;
  /** Since when nothing explains it any more that was not called for itself before; null else. */
  readonly unexplainedAt: MonotonicMillis | null;
}
