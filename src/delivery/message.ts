import type { WallMillis } from '../time/instant.ts';
import type { Call } from './call.ts';

/** What becomes of a message on its way: the phone rings, or it carries a text, a mail, or a posting to a machine. */
export type Form = 'ring' | 'text' | 'mail' | 'post';

export interface Addressee {
  readonly name: string;
  readonly phone: string | null;
  readonly email: string | null;
}

export interface Message {
  readonly id: number;
  readonly form: Form;
  /** Nobody in particular for a posting. */
  readonly to: Addressee | null;
  readonly text: string;
  /** What it tells of, with the time left as it is now; null for an answer or a test. */
  readonly call: Call | null;
  /** When the call was made; null where no clock is believed, and for what is no call. */
  readonly calledAt: WallMillis | null;
  readonly purpose: 'call' | 'answer' | 'test';
}

/** Accepted by the next machine on the way; that somebody read it, only an acknowledgement shows. */
export type Sent =
  | { readonly kind: 'sent'; readonly says: string }
  | { readonly kind: 'failed'; readonly why: string; readonly again: Again };

/**
 * Whether the same message may go to the same person at another time. `useless`: never, their address is nobody's; the next
 * person may be reached. `their-end`: perhaps, their phone is off or busy; the channel has done its part.
 */
export type Again = 'later' | 'useless' | 'their-end';

export const sent = (says: string): Sent => ({ kind: 'sent', says });
export const failed = (why: string, again: Again = 'later'): Sent => ({ kind: 'failed', why, again });
