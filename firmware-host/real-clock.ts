import type { Clock } from '../src/ports/clock.ts';
import { wallMillis } from '../src/time/instant.ts';
import { realTimers, type Timers } from './devices/timers.ts';

/**
 * No timer is set for longer: one of more than 24.8 days would fire at once (setTimeout, Node.js documentation), and one that
 * was set before the machine slept comes late by the sleep.
 */
const TIMER_MILLIS_MAX = 3_600_000;

/** The clocks of this machine. Aborting `stop` ends a wait early. */
export const realClock = (
  stop: AbortSignal,
  timers: Pick<Timers, 'now' | 'setTimeout' | 'clearTimeout'> = realTimers,
): Clock => ({
  now: () => ({ monotonic: timers.now(), wall: wallMillis(Date.now()) }),
  until: (moment) =>
    new Promise((wake) => {
      const ended = (): void => {
        timers.clearTimeout(timer);
        stop.removeEventListener('abort', ended);
        wake();
      };
      const armed = (): ReturnType<Timers['setTimeout']> => {
        const millis = Math.max(0, Math.min(TIMER_MILLIS_MAX, moment - timers.now()));
        return timers.setTimeout(() => {
          if (timers.now() >= moment) ended();
          else timer = armed();
        }, Math.ceil(millis));
      };
      let timer = armed();
      if (stop.aborted) ended();
      else stop.addEventListener('abort', ended, { once: true });
    }),
});
