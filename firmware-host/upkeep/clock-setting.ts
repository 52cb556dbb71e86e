import type { Event } from '../../src/controller.ts';
import type { ClockTrust } from '../../src/time/clock-trust.ts';
import { afterSeconds, type MonotonicMillis } from '../../src/time/instant.ts';
import { clockSource, kernelSaysFetched, type ClockSource } from '../start/clock-source.ts';

/** The network may come hours after the power. */
const LOOK_SECONDS = 30;
/** The service that answers is often begun by the question, from a slow card. Engineering judgement, no source. */
const ANSWERED_SECONDS = 10;

/** Looks, while nothing is known to have set the clock of this machine, whether something has; nobody waits for a look. */
export interface ClockSetting {
  readonly events: (trust: ClockTrust, now: MonotonicMillis) => readonly Event[];
}

const sourceOfNow = (): Promise<ClockSource> =>
  clockSource(Date.now(), '/', () => kernelSaysFetched(ANSWERED_SECONDS));

export const clockSetting = (source: () => Promise<ClockSource> = sourceOfNow): ClockSetting => {
  let lookAt: MonotonicMillis | null = null;
  let isLooking = false;
  let isSet = false;
  return {
    events: ({ isUnset }, now) => {
      if (!isUnset) return [];
      if (isSet) {
        isSet = false;
        return [{ kind: 'clock-set' }];
      }
      if (isLooking || (lookAt !== null && now < lookAt)) return [];
      lookAt = afterSeconds(now, LOOK_SECONDS);
      isLooking = true;
      const looked = (found: ClockSource): void => {
        isLooking = false;
        isSet = found !== 'unknown';
      };
      void source().then(looked, () => {
        looked('unknown');
      });
      return [];
    },
  };
};
