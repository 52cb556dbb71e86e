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
      readonly order: 'hold' | 'release' | 'flood-now';
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
  | { readonly kind: 'alarm-acknowledged'; readonly alarm: AlarmKind; readonly who: string };

/** A happening with its moment. */
export type Entry = When & Happening;
