import { secondsBetween, type MonotonicMillis } from '../../src/time/instant.ts';
import type { ContactPart } from './contact-part.ts';
import type { Fitting } from './fitting.ts';

/** Held for this long a press is a long one, and told while the finger is still on the button. */
const LONG_SECONDS = 3;
/** Contacts bounce for some milliseconds, and a spoilt byte is over at the next. */
const BOUNCE_MILLIS = 50;

/**
 * A button to ground. A button that never comes up again has been pressed once. Its level is asked for at every
 * poll, so that a spoilt byte is over before it has become a long press.
 */
export const buttonPart = ({ io, timers, pressed }: Fitting, pin: number): ContactPart => {
  let downSince: MonotonicMillis | null = null;
  let settle: ReturnType<Fitting['timers']['setTimeout']> | undefined;
  let long: ReturnType<Fitting['timers']['setTimeout']> | undefined;
  const settled = (level: number): void => {
    if (level === 0 && downSince === null) {
      downSince = timers.now();
      long = timers.setTimeout(() => {
        long = undefined;
        pressed('long');
      }, LONG_SECONDS * 1000);
      return;
    }
    if (level !== 1 || downSince === null) return;
    if (long !== undefined && secondsBetween(downSince, timers.now()) < LONG_SECONDS) pressed('short');
    timers.clearTimeout(long);
    long = undefined;
    downSince = null;
  };
  io.pinMode(pin, io.MODES.PULLUP);
  let before: number | null = null;
  io.digitalRead(pin, (level) => {
    if (level === before) return;
    // A finger that was on the button before anybody looked has pressed nothing.
    const first = before === null;
    before = level;
    timers.clearTimeout(settle);
    if (!first) {
      settle = timers.setTimeout(() => {
        settled(level);
      }, BOUNCE_MILLIS);
    }
  });
  return {
    poll: () => {
      io.pinMode(pin, io.MODES.PULLUP);
      io.reportDigitalPin(pin, 1);
    },
  };
};
