import { assert } from '../../../src/units/assertion.ts';
import type { PinLevel } from './ports.ts';
import type { ResetCause } from './registers.ts';

/** What can be seen of the chip from outside, with the cycle at which it happened. */
export type TraceEntry =
  | { readonly kind: 'pin'; readonly cycle: number; readonly pin: number; readonly level: PinLevel }
  | { readonly kind: 'sent' | 'heard'; readonly cycle: number; readonly byte: number }
  | { readonly kind: 'reset'; readonly cycle: number; readonly cause: ResetCause }
  | { readonly kind: 'power-off'; readonly cycle: number };

export interface Trace {
  readonly start: () => void;
  readonly note: (entry: TraceEntry) => void;
  readonly entries: () => readonly TraceEntry[];
}

/** A longer trace is a mistake. */
const ENTRIES_MAX = 1_000_000;

/** A trace that is empty until it is started. */
export const createTrace = (): Trace => {
  const entries: TraceEntry[] = [];
  let records = false;
  return {
    start: () => {
      records = true;
    },
    note: (entry) => {
      if (!records) return;
      assert(entries.length < ENTRIES_MAX, `a trace of more than ${ENTRIES_MAX} entries`);
      entries.push(entry);
    },
    entries: () => entries,
  };
};
