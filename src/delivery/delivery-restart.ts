import {
  afterSeconds,
  monotonicMillis,
  secondsBetween,
  type MonotonicMillis,
  type Now,
} from '../time/instant.ts';
import { isActive } from './call.ts';
import { canTake } from './delivery-plan.ts';
import {
  freshDelivery,
  type DeliverySettings,
  type DeliveryState,
  type Errand,
  type Job,
} from './delivery-state.ts';

/** Delivery as it is written down: its moments hang on the counter of the process that wrote it. */
export interface KeptDelivery {
  readonly state: DeliveryState;
  readonly at: Now;
}

/** The same for the process after it. */
export interface LeftDelivery extends KeptDelivery {
  /** Since `at`. Where nobody knows, no time counts as gone: what waits is called once too often rather than never. */
  readonly awayMinutes: number | 'unknown';
}

/**
 * After so long away the controller has told again what still stands and is of high priority; older texts of that would only
 * mislead. What is less urgent is told once: where nobody has got it, it still goes.
 */
const STALE_MINUTES = 60;

const isStillOwed = ({ call, reached }: Job): boolean =>
  call !== null && isActive(call) && call.priority !== 'high' && reached.length === 0;

/**
 * Delivery after a restart: what waited or was under way is due at once. What was under way may go out twice, which is
 * better than never. Channels, people and addresses that are no longer in the farm file
 * are forgotten.
 */
export const restarted = (kept: LeftDelivery, settings: DeliverySettings, now: Now): DeliveryState => {
  const fresh = freshDelivery(settings, now);
  const { at } = kept;
  const awayMinutes = kept.awayMinutes === 'unknown' ? 0 : kept.awayMinutes;
  const isStale = awayMinutes > STALE_MINUTES;
  /** What was so long before the end is that and the time away before now. */
  const moved = (moment: MonotonicMillis): MonotonicMillis =>
    afterSeconds(now.monotonic, secondsBetween(at.monotonic, moment) - 60 * awayMinutes);
  const channels = new Set(settings.channels.map(({ name }) => name));
  const people = new Map(settings.rota.people.map((person) => [person.name, person]));
  const leads = ({ channel, form, person: name }: Errand): boolean => {
    const person = name === null ? undefined : people.get(name);
    return channels.has(channel) && (name === null || (person !== undefined && canTake(person, form)));
  };
  return {
    ...fresh,
    nextId: kept.state.nextId,
    jobs: kept.state.jobs
      // How long the host was away it may not know; that all was well then says nothing of now.
      .filter((job) => job.call?.kind !== 'all-well' && !job.replaced && (!isStale || isStillOwed(job)))
      .map((job) => ({
        ...job,
        madeAt: moved(job.madeAt),
        untilAt: moved(job.untilAt),
        nextAt: moved(job.nextAt),
        next: job.next.filter((name) => people.has(name)),
        errands: job.errands
          .filter(leads)
          .map((errand) => ({ ...errand, dueAt: now.monotonic, endsAt: null })),
      })),
    answered: Object.fromEntries(
      Object.entries(kept.state.answered)
        .filter(([name]) => people.has(name))
        .map(([name, answers]) => [name, answers.map((answer) => ({ ...answer, at: moved(answer.at) }))]),
    ),
    told: kept.state.told.map((one) => ({
      ...one,
      reached: one.reached.map((reach) => ({ ...reach, at: moved(reach.at), madeAt: moved(reach.madeAt) })),
    })),
    health: Object.fromEntries(
      Object.entries(fresh.health).map(([name, health]) => {
        const old = kept.state.health[name];
        if (isStale || old === undefined || old.since === null) return [name, health];
        const since = monotonicMillis(Math.min(moved(old.since), now.monotonic));
        const { failures, why, wellBy } = old;
        return [name, { ...health, failures, why, wellBy, since }];
      }),
    ),
  };
};
