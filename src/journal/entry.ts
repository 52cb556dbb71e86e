import type { Call } from '../alarm/calls.ts';
import type { AlarmKind, Priority } from '../alarm/card.ts';
import type { KeptRun } from '../ports/board.ts';
import type { MonotonicMillis, WallMillis } from '../time/instant.ts';
import type { Verdict } from '../verify/verdict.ts';

interface When {
  readonly at: MonotonicMillis;
  readonly wall: WallMillis | 'unknown';
}

/** Everything that is worth keeping, as one closed union. */
export type Happening =
  | { readonly kind: 'started'; readonly farm: string }
  /** From here on nobody hears what is asked of the pump; `keeper` when the board floods by its own table then. */
  | { readonly kind: 'link-lost'; readonly why: string; readonly keeper?: 'keeps' }
  /** `keeper` when the board tells what it did meanwhile; else its pump is told off first. */
  | { readonly kind: 'link-found'; readonly keeper?: 'kept' }
  /** A run of the pump that the board tells of afterwards; `startedAt` is on the clock of `at`. */
  | ({ readonly kind: 'kept-run' } & KeptRun)
  /** Entries of the board's log that it no longer holds. */
  | { readonly kind: 'kept-gap'; readonly forgotten: number }
  /** The run of this host ends, and the board floods by its own table from here on. */
  | { readonly kind: 'left-to-board' }
  | {
      readonly kind: 'flood-started';
      readonly flood: number;
      readonly part: string;
      readonly minutes: number;
      readonly reason: string;
    }
  | { readonly kind: 'flood-retried'; readonly flood: number; readonly retry: number }
  | { readonly kind: 'verdict'; readonly flood: number; readonly part: string; readonly verdict: Verdict }
  | { readonly kind: 'pump-asked'; readonly pump: 'on' | 'off'; readonly longestSeconds: number | null }
  | { readonly kind: 'sip'; readonly reason: string }
  | {
      readonly kind: 'order';
      readonly order: 'hold' | 'release' | 'flood-now' | 'clock-right';
      readonly who: string;
      readonly says: string;
    }
  | {
      readonly kind: 'alarm-raised';
      readonly alarm: AlarmKind;
      readonly priority: Priority;
      readonly text: string;
    }
  | { readonly kind: 'alarm-returned'; readonly alarm: AlarmKind }
  | { readonly kind: 'alarm-acknowledged'; readonly alarm: AlarmKind; readonly who: string }
  /** What one sensor showed. A contact gives a boolean, a sensor that says nothing null. Kept thinned. */
  | {
      readonly kind: 'reading';
      readonly channel: string;
      readonly quality: 'good' | 'stale' | 'suspect' | 'absent';
      readonly value: number | boolean | null;
      readonly unit: string;
    }
  /** The farm file in force from here on; each text is kept once, by its SHA-256 in hexadecimal. */
  | {
      readonly kind: 'settings';
      readonly file: string;
      readonly sha256: string;
      readonly text: string;
    }
  /** The host ended as it should: whatever follows begins with nothing lost. */
  | { readonly kind: 'stopped' }
  /** The host before this one ended without a word; `lastWall` is when it last wrote. */
  | { readonly kind: 'gap-recorded'; readonly lastWall: WallMillis | 'unknown'; readonly why: string }
  /** The book could not be believed. It lies at `path`, and this one was begun. */
  | { readonly kind: 'damaged-file-set-aside'; readonly path: string; readonly why: string }
  /** What the memory could not hold while the disk took nothing. */
  | {
      readonly kind: 'dropped';
      readonly readings: number;
      readonly entries: number;
      readonly since: MonotonicMillis;
    }
  | {
      readonly kind: 'alarm-shelved';
      readonly alarm: AlarmKind;
      readonly who: string;
      /** For so long from now; less than was asked for where the time left did not allow it. */
      readonly minutes: number;
    }
  /** Somebody wanted to put it off, and may not. */
  | { readonly kind: 'shelve-refused'; readonly alarm: AlarmKind; readonly who: string; readonly why: string }
  /** The time for which it was put off is over, or it got worse. */
  | { readonly kind: 'alarm-unshelved'; readonly alarm: AlarmKind }
  /** Handed to whoever carries it to people; `alarm` is null for the daily word that all is well. */
  | {
      readonly kind: 'alarm-called';
      readonly call: Call['kind'];
      readonly alarm: AlarmKind | null;
      /** Alarms that the call speaks for besides its own. */
      readonly also: readonly AlarmKind[];
      readonly rung: number;
    }
  /** What became of one message on its way; `attempt` counts those of this message, person and form. */
  | {
      readonly kind: 'delivery';
      readonly outcome: 'delivered' | 'failed';
      /** Null for the daily message and for answers. */
      readonly alarm: AlarmKind | null;
      readonly channel: string;
      readonly form: string;
      readonly person: string | null;
      readonly why: string | null;
      readonly attempt: number | null;
    }
  /** A text that came in; of one whose number is not listed only the last digits are kept, of none the words. */
  | {
      readonly kind: 'text-came';
      readonly channel: string;
      readonly who: string | null;
      readonly lastDigits: string | null;
      readonly meant: 'acknowledge' | 'state' | 'something-else';
    };

/** A happening with its moment. */
export type Entry = When & Happening;
