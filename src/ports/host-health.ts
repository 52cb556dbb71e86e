import type { MonotonicMillis } from '../time/instant.ts';

/** How the journal's writer stands. */
export type JournalHealth =
  | { readonly kind: 'well' }
  /** Entries wait in memory: a slow disk. */
  | { readonly kind: 'behind'; readonly waiting: number; readonly seconds: number }
  | {
      readonly kind: 'not-recording';
      readonly why: string;
      readonly sinceMonotonic: MonotonicMillis;
      readonly dropped: number;
    };

/** A way to people that does not work. */
export interface DeadChannel {
  readonly name: string;
  readonly why: string;
  readonly since: MonotonicMillis;
}

/** What the host knows of itself, for the alarms. It comes when it changes. */
export interface HostHealth {
  readonly journal: JournalHealth;
  /** In the order in which they died. */
  readonly channels: readonly DeadChannel[];
  /** Why the host runs with as little as it can; null when it does not. */
  readonly safeMode: string | null;
  /** Starts of late, as far as the safe mode counts them. */
  readonly restarts: number;
  /** Why nobody knows yet, or any more, what a host before this one knew; null or left out else. */
  readonly pastUnread?: { readonly why: 'late' | 'damaged' } | null;
  /** How much faster than the host's the board's clock runs, per cent; null or left out while nobody can tell. */
  readonly boardClock?: { readonly percentFast: number; readonly since: MonotonicMillis } | null;
  /** How much of what the board says comes spoilt, where that is too much; null or left out else. */
  readonly line?: { readonly percentSpoilt: number; readonly since: MonotonicMillis } | null;
  /** How hot the chip of the host is, where that is too hot; null or left out else. */
  readonly chip?: { readonly celsius: number; readonly since: MonotonicMillis } | null;
  /** How much memory the host takes, where that is too much, and who starts it anew for that; null or left out else. */
  readonly memory?: {
    readonly megabytes: number;
    readonly since: MonotonicMillis;
    readonly renewed: 'by-itself' | 'by-hand';
  } | null;
  /** The battery of the host where it is being drained and nearly empty; null or left out else. */
  readonly battery?: {
    readonly percent: number;
    readonly volts: number | null;
    readonly level: 'low' | 'very-low';
    readonly since: MonotonicMillis;
  } | null;
  /** The strength of the solution where a calibrated probe reads it; null or left out else. */
  readonly strengthMillisiemensPerCm?: number | null;
}
