import type { BoardCommand, Kept, Press, Signals, TimeOfDay } from '../../../src/ports/board.ts';
import { monotonicMillis, type MonotonicMillis } from '../../../src/time/instant.ts';
import { NO_CLOCK, type BoardClock } from './board-clock.ts';
import type { BoardMessage, Hello } from './board-message.ts';
import type { Heard } from './heard.ts';
import type { HostMessage } from './host-message.ts';
import { NO_LOG, type LogMemory } from './log-memory.ts';
import { NO_WISH, type PumpWish } from './pump-wish.ts';
import { NO_HOLD_WISH, type HoldWish } from './hold-wish.ts';
import type { Question } from './question.ts';
import { NO_TABLE_CHECK, type TableCheck } from './table-check.ts';

/** How far this host has come with the keeper on its line. */
export type Phase =
  /** Who are you, and what were you flashed for? */
  | { readonly kind: 'hello' }
  | { readonly kind: 'status' }
  /** What happened while nobody listened. */
  | { readonly kind: 'log' }
  | { readonly kind: 'claim' }
  /** The pump is ours; before anybody hears of it, what happened up to the claim is read. */
  | {
      readonly kind: 'settle';
      readonly epoch: number;
      readonly since: MonotonicMillis;
      readonly statusHeard: boolean;
    }
  | Owning
  /** The keeper has the pump until then, and what it does is left alone. */
  | { readonly kind: 'wait'; readonly until: MonotonicMillis }
  /** A board that must not be driven. It keeps its line: to open a line again resets most boards. */
  | { readonly kind: 'refused'; readonly why: string; readonly tryAt: MonotonicMillis }
  | { readonly kind: 'look' };

export interface Owning {
  readonly kind: 'own';
  readonly epoch: number;
  readonly pump: PumpWish;
  readonly hold: HoldWish;
  readonly heartbeatAt: MonotonicMillis | null;
}

export interface LinkState {
  readonly phase: Phase;
  readonly questions: readonly Question[];
  readonly nextSeq: number;
  /** Beats since the last answer in which one was awaited. */
  readonly silentBeats: number;
  readonly hello: Hello | null;
  readonly heard: Heard | null;
  readonly clock: BoardClock;
  readonly log: LogMemory;
  readonly table: TableCheck;
  readonly signals: Signals;
  /** Nothing is claimed before: a host that looks once a second must have seen that its pump was gone. */
  readonly claimFrom: MonotonicMillis;
}

export type LinkEvent =
  | { readonly kind: 'begin' }
  | { readonly kind: 'frame'; readonly seq: number; readonly message: BoardMessage }
  /** Once a second, by a timer. */
  | { readonly kind: 'beat' }
  /** A control tick has been completed. */
  | { readonly kind: 'alive'; readonly time: TimeOfDay | 'unknown' }
  | { readonly kind: 'command'; readonly command: BoardCommand }
  | { readonly kind: 'show'; readonly signals: Signals }
  /** An answer may be missing. */
  | { readonly kind: 'due' }
  /** The table that the board should have; null for any. */
  | { readonly kind: 'table'; readonly table: Uint8Array | null }
  | { readonly kind: 'let-go' };

export type LinkEffect =
  | { readonly kind: 'send'; readonly seq: number; readonly message: HostMessage }
  | { readonly kind: 'up'; readonly kept: Kept }
  /** The pump is not ours, and the line stays. */
  | { readonly kind: 'down'; readonly why: string; readonly keeps: boolean }
  /** This line has come to its end. */
  | { readonly kind: 'lost'; readonly why: string }
  | { readonly kind: 'pressed'; readonly press: Press }
  /** Asks for a `table` event. */
  | { readonly kind: 'want-table' };

export interface Step {
  readonly state: LinkState;
  readonly effects: readonly LinkEffect[];
}

/** What does not change while a line is open. */
export interface LinkAsked {
  readonly use: 'drive' | 'look';
  /** The setup block that the farm file gives; null: it gives none, and nothing is claimed. */
  readonly setup: Uint8Array | null;
  /** What of the wiring this board has no pin for, in words; null: nothing. */
  readonly misfitWhy: string | null;
}

export const DARK: Signals = { buzzer: 'silent', lamp: 'dark' };

export const stateAtOpening = (
  before: LogMemory | null,
  claimFrom: MonotonicMillis = monotonicMillis(0),
): LinkState => ({
  phase: { kind: 'hello' },
  questions: [],
  nextSeq: 0,
  silentBeats: 0,
  hello: null,
  heard: null,
  clock: NO_CLOCK,
  log: before ?? NO_LOG,
  table: NO_TABLE_CHECK,
  signals: DARK,
  claimFrom,
});

export const owning = (epoch: number): Owning => ({
  kind: 'own',
  epoch,
  pump: NO_WISH,
  hold: NO_HOLD_WISH,
  heartbeatAt: null,
});
