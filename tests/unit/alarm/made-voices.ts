import type { AlarmKind } from '../../../src/alarm/card.ts';
import type { Voice } from '../../../src/alarm/voices.ts';
import { minute } from '../../support/moments.ts';
import { cardOf } from './made-alarms.ts';

/** The voice of an alarm raised at minute 0 of which nobody has heard and nobody is to, but for what is told. */
export const voice = (kind: AlarmKind, told: Partial<Voice> = {}): Voice => ({
  card: cardOf(kind),
  raisedAt: minute(0),
  since: told.raisedAt ?? minute(0),
  endedAt: null,
  wavers: false,
  leftMinutes: null,
  phase: 'waiting',
  seenBy: null,
  rung: -1,
  calledAt: null,
  dueAt: null,
  unexplainedAt: null,
  ...told,
});
