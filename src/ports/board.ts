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

export interface Board {
  readonly command: (command: PumpCommand) => void;
  /** Everything seen since the last call, oldest first. */
  readonly samples: () => readonly Sample[];
}
