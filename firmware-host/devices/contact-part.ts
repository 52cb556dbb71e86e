import type { Wiring } from '../../src/farm/farm.ts';
import type { MonotonicMillis } from '../../src/time/instant.ts';
import type { Fitting } from './fitting.ts';

type Contact = NonNullable<Wiring['tankFloat']>;

/** A contact; `poll` asks the board for its level and tells what came since the poll before. */
export interface ContactPart {
  readonly poll: () => void;
}

/** How many polls, a second apart, must agree before a change is told. */
export const AGREEING = {
  /** One spoilt byte is not enough. */
  quick: 2,
  /** Of a float in moving water, and of what stops a flood. */
  calm: 10,
} as const;

/** A contact that never settles is told as it comes after this many times as long, so that its chatter is seen. */
const UNSETTLED_MAX = 3;

/**
 * A board reports a contact only when it changes, and a byte spoilt on the way would stand until then; so mode
 * and level are asked for at every poll, and several must agree before a change is told.
 */
export const contactPart = (
  { io, timers }: Fitting,
  { pin, reads }: Contact,
  agreeing: (typeof AGREEING)[keyof typeof AGREEING],
  tell: (so: boolean, at: MonotonicMillis) => void,
): ContactPart => {
  let heard: { readonly level: number; readonly at: MonotonicMillis } | null = null;
  let same: { readonly level: number; readonly polls: number } | null = null;
  let told: number | null = null;
  let unsettled = 0;
  io.pinMode(pin, io.MODES.PULLUP);
  io.digitalRead(pin, (level) => {
    heard = { level, at: timers.now() };
  });
  return {
    poll: () => {
      if (heard !== null) {
        const { level, at } = heard;
        same = { level, polls: same?.level === level ? same.polls + 1 : 1 };
        unsettled = same.polls >= agreeing ? 0 : unsettled + 1;
        if (told === null || unsettled === 0 || unsettled > UNSETTLED_MAX * agreeing) told = level;
        heard = null;
        tell((told === 1) === (reads === 'high'), at);
      }
      io.pinMode(pin, io.MODES.PULLUP);
      io.reportDigitalPin(pin, 1);
    },
  };
};
