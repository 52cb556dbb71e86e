import type { AlarmKind, Priority } from '../alarm/card.ts';
import type { MonotonicMillis, WallMillis } from '../time/instant.ts';
import type { Verdict } from '../verify/verdict.ts';

interface When {
  readonly at: MonotonicMillis;
  readonly wall: WallMillis | 'unknown';
}

/** Everything that is worth keeping, as one closed union. */
export type Happening =
  | { readonly kind: 'started'; readonly farm: string }
  /** From here on nobody hears what is asked of the pump. */
  | { readonly kind: 'link-lost'; readonly why: string }
  | { readonly kind: 'link-found' }
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
