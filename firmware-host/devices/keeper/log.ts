import type { KeptRun } from '../../../src/ports/board.ts';
import { bodyReader } from './body-reader.ts';

/** Entries of the board's log: docs/board-protocol.md, "Log". */

export const LOG_ENTRY_BYTES = 8;
/** In one answer. */
export const LOG_ANSWER_MAX = 8;
/** That the board holds. */
export const LOG_HELD_MAX = 32;
/** Numbers of entries go round here. */
export const LOG_NUMBERS = 0x1_0000;

/** What happened; `unknown` where a newer board tells what this program does not know. */
export type Logged =
  | {
      readonly kind: 'run';
      readonly verdict: KeptRun['verdict'];
      readonly begunBy: KeptRun['begunBy'];
      readonly endedBy: KeptRun['endedBy'];
      readonly seconds: number;
    }
  | { readonly kind: 'reset' }
  | { readonly kind: 'owner'; readonly owner: 'host' | 'keeper' }
  | { readonly kind: 'button'; readonly press: 'short' }
  /** Seconds of the hold that were left just then. */
  | { readonly kind: 'button'; readonly press: 'long'; readonly heldSeconds: number }
  | { readonly kind: 'other'; readonly code: number };

export interface LogEntry {
  /** Seconds of the board's uptime; before its last reset negative. Of a run it is the start. */
  readonly atSeconds: number;
  readonly logged: Logged;
}

const VERDICTS: readonly KeptRun['verdict'][] = [
  'confirmed',
  'unproven',
  'missed',
  'sip',
  'cut-short',
  'judged-by-host',
];

const loggedOf = (kind: number, detail: number, value: number): Logged => {
  switch (kind) {
    case 1:
      return {
        kind: 'run',
        // A verdict of a newer board proves nothing to this program.
        verdict: VERDICTS[detail & 0x0f] ?? 'unproven',
        begunBy: (detail & 0x10) === 0 ? 'board' : 'host',
        endedBy: (detail & 0x20) === 0 ? 'host' : 'board',
        seconds: value,
      };
    case 2:
      return { kind: 'reset' };
    case 3:
      return { kind: 'owner', owner: detail === 1 ? 'host' : 'keeper' };
    case 6:
      if (detail > 1) return { kind: 'other', code: kind };
      return detail === 0
        ? { kind: 'button', press: 'short' }
        : { kind: 'button', press: 'long', heldSeconds: value };
    default:
      return { kind: 'other', code: kind };
  }
};

/** Entries of the bytes of an answer, oldest first; null when they are no whole entries, or too many. */
export const entriesIn = (bytes: Uint8Array): readonly LogEntry[] | null => {
  const count = bytes.length / LOG_ENTRY_BYTES;
  if (!Number.isInteger(count) || count > LOG_ANSWER_MAX) return null;
  const { i32, u8, u16 } = bodyReader(bytes);
  return Array.from({ length: count }, (_, place) => {
    const at = place * LOG_ENTRY_BYTES;
    return { atSeconds: i32(at), logged: loggedOf(u8(at + 4), u8(at + 5), u16(at + 6)) };
  });
};

/** How many entries `later` is after `earlier`, by the numbers that go round; negative when it is before. */
export const entriesBetween = (earlier: number, later: number): number => {
  const ahead = (later - earlier + LOG_NUMBERS) % LOG_NUMBERS;
  return ahead < LOG_NUMBERS / 2 ? ahead : ahead - LOG_NUMBERS;
};
