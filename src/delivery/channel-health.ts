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
import type { DeliverySettings, DeliveryState, Health } from './delivery-state.ts';

export const isDead = ({ failures, since }: Health, now: MonotonicMillis): boolean =>
  since !== null && (failures >= DEAD_AFTER_FAILURES || secondsBetween(since, now) >= DEAD_AFTER_SECONDS);

/** An attempt to send, or a look; `look-in-vain` while something that the channel did not take waits to be tried again. */
type Tried = 'send' | 'look' | 'look-in-vain';

/**
 * A channel after one attempt or look. A phone that is off or busy says nothing about the channel. One that is told that an
 * address is nobody's may refuse all of them alike: it has failed, until it takes something for somebody else. Nor is one
 * well because it answers, as a modem without credit does, while it takes nothing.
 */
export const healthAfter = (health: Health, tried: Tried, result: Sent, now: MonotonicMillis): Health => {
  if (result.kind === 'failed' && result.again === 'their-end') return health;
  if (result.kind === 'sent') {
    const checkAt = afterMinutes(now, CHECK_WELL_MINUTES);
    const isShown = tried === 'send' || (tried === 'look' && health.wellBy === 'look');
    if (!isShown) return { ...health, checkAt };
    return { ...health, failures: 0, why: '', since: null, wellBy: 'look', checkAt };
  }
  const after: Health = {
    ...health,
    failures: health.failures + 1,
    why: result.why,
    since: health.since ?? now,
    wellBy: result.again === 'useless' ? 'send' : health.wellBy,
  };
  // How often a dead one is looked at, its looks say: one that answers them all needs none soon.
  if (tried === 'send' && isDead(health, now) && health.checkAt > now)
    return { ...after, checkAt: health.checkAt };
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

/** Of one that cannot be looked at, and owes nothing any more, nobody knows whether it is still dead: the next posting tells. */
export const withForgotten = (state: DeliveryState, { channels }: DeliverySettings): DeliveryState =>
  channels.reduce((before, { name, checks }) => {
    const health = before.health[name];
    if (checks === 'yes' || health === undefined || health.since === null || owes(before, name))
      return before;
    return withHealth(before, name, { ...health, failures: 0, why: '', since: null });
  }, state);

const owes = ({ jobs }: DeliveryState, name: string): boolean =>
  jobs.some(({ errands }) => errands.some(({ channel }) => channel === name));

/** The channels through which nothing goes at this moment. */
export const deadChannels = ({ health }: DeliveryState, now: MonotonicMillis): readonly DeadChannel[] =>
  Object.entries(health).flatMap(([name, each]) =>
    each.since !== null && isDead(each, now) ? [{ name, why: each.why, since: each.since }] : [],
  );
