import type { CPU } from 'avr8js';
import type { Events } from './events.ts';
import type { Interrupts } from './interrupts.ts';

/** What carries out a program. */
export interface Core {
  readonly cpu: CPU;
  readonly events: Events;
  readonly interrupts: Interrupts;
  /** See `decode.ts`. */
  readonly program: Uint32Array;
  asleep: boolean;
  /** Interrupts have just been enabled: one more instruction is carried out before any of them. */
  justEnabled: boolean;
  carriedOut: number;
}
