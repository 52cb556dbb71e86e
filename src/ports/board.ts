import type { MonotonicMillis } from '../time/instant.ts';
import type { Seconds } from '../units/quantity.ts';
import type { Sample } from './sample.ts';

/** What the host may ask of the pump. Asked is not seen: only samples tell what happened. */
export type PumpCommand =
  | {
      readonly kind: 'pump-on';
      /** The board stops the pump by itself after this, whatever becomes of the host. */
      readonly longest: Seconds;
    }
  | { readonly kind: 'pump-off' };

/** A person's hold, for boards that hold by themselves: it stands there also when this host dies. */
export type HoldCommand = { readonly kind: 'hold'; readonly longest: Seconds } | { readonly kind: 'release' };

export type BoardCommand = PumpCommand | HoldCommand;

/** A run of the pump that has ended, as a board with a keeper remembers it. */
export interface KeptRun {
  readonly startedAt: MonotonicMillis;
  readonly seconds: number;
  readonly begunBy: 'board' | 'host';
  readonly endedBy: 'board' | 'host';
  /** What the board made of it; a run that the host began and ended is the host's to judge. */
  readonly verdict: 'confirmed' | 'unproven' | 'missed' | 'sip' | 'cut-short' | 'judged-by-host';
}

/** What a board with a keeper tells of the time in which this host did not own its pump. */
export interface Kept {
  /** Runs that ended since this host last heard of the board, oldest first. */
  readonly runs: readonly KeptRun[];
  /** Entries of the board's log that it no longer holds. */
  readonly forgotten: number;
  /** The flood that runs at this moment, whoever began it; it goes on unless the pump is asked off. */
  readonly running: {
    readonly startedAt: MonotonicMillis;
    readonly until: MonotonicMillis;
    /** One that the board gives while it allows no flood; it may last as long as a short flood. */
    readonly sip?: boolean;
  } | null;
  /** The last whole flood before now, as far back as the board remembers. */
  readonly lastFlood: { readonly startedAt: MonotonicMillis; readonly seconds: number } | null;
  readonly holdUntil: MonotonicMillis | null;
}

/**
 * Whether anybody hears what is asked of the pump. A lost link is told in words: what was seen, where; and
 * whether the board floods by a table of its own meanwhile.
 */
export type Link =
  | { readonly kind: 'up'; readonly kept?: Kept }
  | { readonly kind: 'down'; readonly why: string; readonly keeper?: 'keeps' };

/** By the local clock of the farm. */
export interface TimeOfDay {
  readonly minute: number;
  readonly second: number;
}

/**
 * What a person at the board did with its button. A board that keeps the plants has held the pump by itself already, for so
 * many seconds from now; for none where the button has held it for hours and is taken for wet.
 */
export type Press = 'short' | 'long' | { readonly heldSeconds: number };

/** What the board shows to whoever stands near it. */
export interface Signals {
  readonly buzzer: 'sounding' | 'silent';
  readonly lamp: 'lit' | 'dark';
}

export interface Board {
  /** Never kept for later: a command that finds the link down is lost, and the controller knows of it by `link`. */
  readonly command: (command: BoardCommand) => void;
  /** Everything seen since the last call, oldest first. */
  readonly samples: () => readonly Sample[];
  readonly link: () => Link;
  /** Presses since the last call, oldest first. */
  readonly presses: () => readonly Press[];
  readonly show: (signals: Signals) => void;
  /** A control tick has been completed: only this lets a board with a keeper believe that the host lives. */
  readonly alive: (time: TimeOfDay | 'unknown') => void;
}
