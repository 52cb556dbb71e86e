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

/** Whether anybody hears what is asked of the pump. A lost link is told in words: what was seen, where. */
export type Link = { readonly kind: 'up' } | { readonly kind: 'down'; readonly why: string };

/** What a person at the board did with its button. */
export type Press = 'short' | 'long';

/** What the board shows to whoever stands near it. */
export interface Signals {
  readonly buzzer: 'sounding' | 'silent';
  readonly lamp: 'lit' | 'dark';
}

export interface Board {
  /** Never kept for later: a command that finds the link down is lost, and the controller knows of it by `link`. */
  readonly command: (command: PumpCommand) => void;
  /** Everything seen since the last call, oldest first. */
  readonly samples: () => readonly Sample[];
  readonly link: () => Link;
  /** Presses since the last call, oldest first. */
  readonly presses: () => readonly Press[];
  readonly show: (signals: Signals) => void;
}
