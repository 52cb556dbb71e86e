import type { Clock } from '../src/ports/clock.ts';
import { wallMillis } from '../src/time/instant.ts';
import { realTimers } from './devices/timers.ts';

/** The clocks of this machine. Aborting `stop` ends a wait early. */
export const realClock = (stop: AbortSignal): Clock => ({
  now: () => ({ monotonic: realTimers.now(), wall: wallMillis(Date.now()) }),
  until: (moment) =>
    new Promise((wake) => {
      const ended = (): void => {
        clearTimeout(timer);
        stop.removeEventListener('abort', ended);
        wake();
      };
      const timer = setTimeout(ended, Math.max(0, moment - realTimers.now()));
      if (stop.aborted) ended();
      else stop.addEventListener('abort', ended, { once: true });
    }),
});
