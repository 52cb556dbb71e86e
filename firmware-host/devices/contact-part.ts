import type { Wiring } from '../../src/farm/farm.ts';
import type { MonotonicMillis } from '../../src/time/instant.ts';
import type { Fitting } from './fitting.ts';

type Contact = NonNullable<Wiring['tankFloat']>;

/** A contact; `poll` asks the board for its level and tells what came since the poll before. */
export interface ContactPart {
  readonly poll: () => void;
}

/**
 * A board reports a contact only when it changes, and a byte spoilt on the way would stand until then; so mode
 * and level are asked for at every poll. Two polls must agree before a change is told.
 */
export const contactPart = (
  { io, timers }: Fitting,
  { pin, reads }: Contact,
  tell: (so: boolean, at: MonotonicMillis) => void,
): ContactPart => {
  let heard: { readonly level: number; readonly at: MonotonicMillis } | null = null;
  let before: number | null = null;
  let told: number | null = null;
  io.pinMode(pin, io.MODES.PULLUP);
  io.digitalRead(pin, (level) => {
    heard = { level, at: timers.now() };
  });
  return {
    poll: () => {
      if (heard !== null) {
        const { level, at } = heard;
        if (told === null || level === before) told = level;
        before = level;
        heard = null;
        tell((told === 1) === (reads === 'high'), at);
      }
      io.pinMode(pin, io.MODES.PULLUP);
      io.reportDigitalPin(pin, 1);
    },
  };
};
