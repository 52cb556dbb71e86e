import { secondsBetween, type MonotonicMillis } from '../time/instant.ts';
import type { Alarms } from './alarm.ts';
import type { AlarmKind } from './card.ts';
import type { Voice } from './voice.ts';

/** A restart moves the moments of host and herald by one rule, each from when it last wrote. */
const SAME_SECONDS = 60;

/** An alarm of which somebody had been told, by a call that was made at that moment. */
export interface Known {
  readonly alarm: AlarmKind;
  readonly madeAt: MonotonicMillis;
}

/**
 * What somebody can have meant who says "ok" and had been told of this: not what was raised anew since, but what only came
 * and went meanwhile. Those that are over too: who was called for one may answer when it has gone.
 */
export const meantBy = (
  alarms: Alarms,
  voices: readonly Voice[],
  known: readonly Known[],
): readonly AlarmKind[] =>
  alarms
    .filter(({ card, raisedAt }) => {
      const since = voices.find((voice) => voice.card.kind === card.kind)?.since ?? raisedAt;
      return known.some(
        ({ alarm, madeAt }) => alarm === card.kind && secondsBetween(since, madeAt) >= -SAME_SECONDS,
      );
    })
    .map(({ card }) => card.kind);
