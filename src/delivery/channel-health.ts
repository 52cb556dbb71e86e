import { afterMinutes, afterSeconds, secondsBetween, type MonotonicMillis } from '../time/instant.ts';
import type { DeadChannel } from '../ports/host-health.ts';
import type { Sent } from './message.ts';
import {
  BACK_OFF_FIRST_SECONDS,
  CHECK_DEAD_MINUTES,
  CHECK_WELL_MINUTES,
  DEAD_AFTER_FAILURES,
  DEAD_AFTER_SECONDS,
} from './delivery-bounds.ts';
import type { DeliveryState, Health } from './delivery-state.ts';

const isDead = ({ failures, since }: Health, now: MonotonicMillis): boolean =>
  since !== null && (failures >= DEAD_AFTER_FAILURES || secondsBetween(since, now) >= DEAD_AFTER_SECONDS);

/** A channel after one attempt or look. What cannot be sent to one person says nothing about the channel. */
export const healthAfter = (health: Health, result: Sent, now: MonotonicMillis): Health => {
  if (result.kind === 'failed' && result.again === 'useless') return health;
  if (result.kind === 'sent') {
    return { ...health, failures: 0, why: '', since: null, checkAt: afterMinutes(now, CHECK_WELL_MINUTES) };
  }
  const after = {
    ...health,
    failures: health.failures + 1,
    why: result.why,
    since: health.since ?? now,
  };
  // Soon again while it may have been a passing thing.
  const checkAt = isDead(after, now)
    ? afterMinutes(now, CHECK_DEAD_MINUTES)
    : afterSeconds(now, BACK_OFF_FIRST_SECONDS);
  return { ...after, checkAt };
};

export const withHealth = (state: DeliveryState, name: string, health: Health): DeliveryState => ({
  ...state,
  health: { ...state.health, [name]: health },
});

/** The channels through which nothing goes at this moment. */
export const deadChannels = ({ health }: DeliveryState, now: MonotonicMillis): readonly DeadChannel[] =>
  Object.entries(health).flatMap(([name, each]) =>
    each.since !== null && isDead(each, now) ? [{ name, why: each.why, since: each.since }] : [],
  );
