import type { Known } from '../alarm/meant.ts';
import type { MonotonicMillis } from '../time/instant.ts';
import type { Call } from './call.ts';

/** What came back from outside, and what became of what went out. */
export type HeraldHeard =
  /** A text "ok" from a listed number. */
  | {
      readonly kind: 'acknowledge';
      readonly who: string;
      readonly channel: string;
      /** The alarms of which they had been told when they sent it, each with the moment of the call that told them. */
      readonly known: readonly Known[];
    }
  /** A text "?" from a listed number; the answer is on its way. */
  | { readonly kind: 'asked'; readonly who: string; readonly channel: string }
  /** Another text from a listed number; it is not kept. */
  | { readonly kind: 'not-understood'; readonly who: string; readonly channel: string }
  /** A text from a number that is not listed: never answered, its words never kept. */
  | { readonly kind: 'stranger'; readonly channel: string; readonly lastDigits: string }
  | {
      readonly kind: 'delivered';
      /** Null for the answer to a "?". */
      readonly call: Call | null;
      readonly channel: string;
      readonly form: string;
      readonly person: string | null;
      readonly at: MonotonicMillis;
    }
  | {
      readonly kind: 'failed';
      readonly call: Call | null;
      readonly channel: string;
      readonly form: string;
      readonly person: string | null;
      readonly why: string;
      /** The how-manieth for this message, person and form. */
      readonly attempt: number;
    };
