import type { MonotonicMillis } from '../time/instant.ts';

/** One thing the board saw, in physical units, with the moment at which it was seen. */
export type Sample = { readonly at: MonotonicMillis } & (
  | { readonly channel: 'air-temperature'; readonly celsius: number }
  | { readonly channel: 'water-temperature'; readonly celsius: number }
  | { readonly channel: 'humidity'; readonly percent: number }
  | { readonly channel: 'return-flow'; readonly litresPerMinute: number }
  | { readonly channel: 'return-switch'; readonly flowing: boolean }
  | { readonly channel: 'pump-current'; readonly drawing: boolean }
  | { readonly channel: 'relay-read-back'; readonly closed: boolean }
  | { readonly channel: 'tank-level'; readonly litres: number }
  | { readonly channel: 'tank-float'; readonly low: boolean }
  | { readonly channel: 'leak'; readonly wet: boolean }
  | { readonly channel: 'overflow'; readonly wet: boolean }
  /** Whether the pump's supply has its mains. */
  | { readonly channel: 'mains'; readonly there: boolean }
  /** Counts of the converter, whatever they mean: the calibration is the host's. */
  | { readonly channel: 'probe'; readonly counts: number }
);

export type Channel = Sample['channel'];
