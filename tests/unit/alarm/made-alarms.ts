import type { Alarm, AlarmState } from '../../../src/alarm/alarm.ts';
import type { AlarmKind, Card, Priority } from '../../../src/alarm/card.ts';
import { beginning } from '../../../src/alarm/deadband.ts';
import { STAKES } from '../../../src/alarm/stakes.ts';
import { afterMinutes, type MonotonicMillis } from '../../../src/time/instant.ts';

export const KINDS = Object.keys(STAKES) as readonly AlarmKind[];

/** As the cards have it: water at stake now is high, what only costs water is low, the rest in between. */
export const usualPriority = (kind: AlarmKind): Priority => {
  if (kind === 'no-good-temperature') return 'low';
  return STAKES[kind] === 'water' && kind !== 'weak-flow' ? 'high' : 'medium';
};

export const cardOf = (kind: AlarmKind, cause = 'It is so.', priority = usualPriority(kind)): Card => ({
  kind,
  priority,
  cause,
  consequence: null,
  firstAction: 'Look.',
});

/** An alarm in this state since `raisedAt`, its condition away for long where the state says so. */
export const alarmIn = (state: AlarmState, card: Card, raisedAt: MonotonicMillis): Alarm => ({
  state,
  raisedAt,
  card,
  course:
    state === 'returned-unacknowledged'
      ? { ...beginning(raisedAt), awaySince: raisedAt }
      : beginning(raisedAt),
  shelf: state === 'shelved' ? { until: afterMinutes(raisedAt, 60), who: 'Ana' } : null,
});
