import { afterMinutes, afterSeconds, type MonotonicMillis, type Now } from '../time/instant.ts';
import { isActive } from './call.ts';
import { healthAfter, isDead, withHealth } from './channel-health.ts';
import { failed, type Sent } from './message.ts';
import {
  ATTEMPT_SECONDS,
  backOffSeconds,
  CHECK_SECONDS,
  CHECK_WELL_MINUTES,
  JOBS_MAX,
  LIFE_MINUTES,
  RINGS_IN_VAIN_MAX,
} from './delivery-bounds.ts';
import {
  isUnderWay,
  type Delivered,
  type DeliveryEffect,
  type DeliveryState,
  type Errand,
  type Job,
} from './delivery-state.ts';
import type { HeraldHeard } from './heard.ts';
import { withReached } from './told.ts';

const told = (
  { call }: Job,
  { channel, form, person }: Errand,
): { readonly call: Job['call']; channel: string; form: string; person: string | null } => ({
  call,
  channel,
  form,
  person,
});

const heardOf = (job: Job, errand: Errand, result: Sent, at: MonotonicMillis): HeraldHeard =>
  result.kind === 'sent'
    ? { kind: 'delivered', ...told(job, errand), at }
    : { kind: 'failed', ...told(job, errand), why: result.why, attempt: errand.tries + 1 };

/** The job after one of its attempts has ended; gone when nothing is left of it. */
const jobAfter = (job: Job, errand: Errand, result: Sent, now: MonotonicMillis): Job => {
  const others = job.errands.filter(({ id }) => id !== errand.id);
  if (result.kind === 'sent') {
    const reached = errand.person === null ? job.reached : [...job.reached, errand.person];
    return { ...job, errands: others, reached };
  }
  const ringsInVain = errand.ringsInVain + (result.again === 'their-end' ? 1 : 0);
  if (job.replaced || result.again === 'useless' || ringsInVain === RINGS_IN_VAIN_MAX) {
    return { ...job, errands: others };
  }
  const tries = errand.tries + 1;
  const again = {
    ...errand,
    tries,
    ringsInVain,
    endsAt: null,
    dueAt: afterSeconds(now, backOffSeconds(tries, errand.form)),
  };
  return { ...job, errands: [...others, again] };
};

const replacedJob = (state: DeliveryState, job: Job): DeliveryState => ({
  ...state,
  jobs: state.jobs.map((each) => (each.id === job.id ? job : each)),
});

/** Of whom it is known from now on that they were told. */
const withOut = (
  state: DeliveryState,
  { call, madeAt }: Job,
  { form, person }: Errand,
  { kind }: Sent,
  at: MonotonicMillis,
): DeliveryState =>
  kind === 'failed' || call === null || person === null
    ? state
    : { ...state, told: withReached(state.told, call, form, { person, at, madeAt }) };

/** Whether something waits that the channel did not take when it was tried last. */
const takesNothing = ({ jobs }: DeliveryState, name: string): boolean =>
  jobs.some(({ errands }) =>
    errands.some(({ channel, tries, ringsInVain }) => channel === name && tries > ringsInVain),
  );

/** A channel that answers again may well take what it did not. */
const withTriedNow = (state: DeliveryState, name: string, now: MonotonicMillis): DeliveryState => ({
  ...state,
  jobs: state.jobs.map((job) => ({
    ...job,
    errands: job.errands.map((errand) =>
      errand.channel === name && !isUnderWay(errand) && errand.dueAt > now
        ? { ...errand, dueAt: now }
        : errand,
    ),
  })),
});

/** One attempt or look has ended. Of one that nobody waits for any more, nothing changes. */
export const settled = (state: DeliveryState, id: number, result: Sent, now: MonotonicMillis): Delivered => {
  for (const job of state.jobs) {
    const errand = job.errands.find((each) => each.id === id && isUnderWay(each));
    if (errand === undefined) continue;
    const health = state.health[errand.channel];
    const after = withOut(replacedJob(state, jobAfter(job, errand, result, now)), job, errand, result, now);
    return {
      state:
        health === undefined
          ? after
          : withHealth(after, errand.channel, healthAfter(health, 'send', result, now)),
      effects: [{ kind: 'heard', heard: heardOf(job, errand, result, now) }],
    };
  }
  for (const [name, health] of Object.entries(state.health)) {
    if (health.checking?.id !== id) continue;
    const inVain = takesNothing(state, name);
    const after = { ...healthAfter(health, inVain ? 'look-in-vain' : 'look', result, now), checking: null };
    const checkAt = after.checkAt > now ? after.checkAt : afterMinutes(now, CHECK_WELL_MINUTES);
    const looked = withHealth(state, name, { ...after, checkAt });
    return {
      state: inVain && result.kind === 'sent' ? withTriedNow(looked, name, now) : looked,
      effects: [],
    };
  }
  return { state, effects: [] };
};

/** What should have ended by now has failed, and is waited for no longer. */
export const withHungEnded = (state: DeliveryState, now: MonotonicMillis): Delivered => {
  const hung = state.jobs.flatMap(({ errands }) =>
    errands.filter(({ endsAt }) => endsAt !== null && endsAt <= now),
  );
  const looks = Object.values(state.health).flatMap(({ checking }) =>
    checking !== null && checking.endsAt <= now ? [checking] : [],
  );
  return [
    ...hung.map(({ id, form }) => ({ id, seconds: ATTEMPT_SECONDS[form] })),
    ...looks.map(({ id }) => ({ id, seconds: CHECK_SECONDS })),
  ].reduce<Delivered>(
    (before, { id, seconds }) => {
      const next = settled(before.state, id, failed(`no answer within ${seconds} s`), now);
      return {
        state: next.state,
        effects: [...before.effects, { kind: 'abort', id }, ...next.effects],
      };
    },
    { state, effects: [] },
  );
};

/** What a job that is given up leaves behind: nothing under way, each errand told. */
const givenUp = (job: Job, why: string): readonly DeliveryEffect[] =>
  job.errands.flatMap((errand): readonly DeliveryEffect[] => [
    ...(isUnderWay(errand) ? [{ kind: 'abort', id: errand.id } as const] : []),
    { kind: 'heard', heard: { kind: 'failed', ...told(job, errand), why, attempt: errand.tries } },
  ]);

/**
 * What is left of a job whose time is over: all of an alarm that nobody has got, for it will not be told again unless it
 * gets graver; and what a dead channel owes, by which it shows itself well again. An "all well" of yesterday is none of these.
 */
const goesOn = (
  { health }: DeliveryState,
  { call, replaced, reached, errands }: Job,
  now: MonotonicMillis,
): Job['errands'] => {
  if (call === null || call.kind === 'all-well' || replaced) return [];
  if (isActive(call) && reached.length === 0) return errands;
  return errands.filter(({ channel }) => {
    const each = health[channel];
    return each !== undefined && isDead(each, now);
  });
};

/** The jobs whose time is over, each as what goes on of it and what is given up. */
const ended = (
  state: DeliveryState,
  now: MonotonicMillis,
): ReadonlyMap<Job, { readonly left: Job; readonly gone: Job }> =>
  new Map(
    state.jobs
      .filter(({ untilAt }) => untilAt <= now)
      .map((job) => {
        const left = goesOn(state, job, now);
        const gone = job.errands.filter((errand) => !left.includes(errand));
        const untilAt = afterMinutes(now, LIFE_MINUTES.low);
        return [job, { left: { ...job, next: [], errands: left, untilAt }, gone: { ...job, errands: gone } }];
      }),
  );

/** Jobs whose time is over, or that are too many, are given up and told; those of which nothing is left go. */
export const tidied = (state: DeliveryState, { monotonic }: Now): Delivered => {
  const over = ended(state, monotonic);
  const inTime = state.jobs
    .map((job) => over.get(job)?.left ?? job)
    .filter((job) => job.errands.length > 0 || isOpen(job));
  const crowd = inTime
    .toSorted((one, other) => other.rank - one.rank || one.id - other.id)
    .slice(0, Math.max(0, inTime.length - JOBS_MAX));
  // The same list where it is: what is written down is written anew only when it has changed.
  const isSame = over.size === 0 && crowd.length === 0 && inTime.length === state.jobs.length;
  return {
    state: isSame ? state : { ...state, jobs: inTime.filter((job) => !crowd.includes(job)) },
    effects: [
      ...[...over.values()].flatMap(({ gone }) => givenUp(gone, 'its time is over')),
      ...crowd.flatMap((job) => givenUp(job, 'too much else waits')),
    ],
  };
};

/** Nobody has been reached, and somebody is left to call. */
export const isOpen = ({ replaced, reached, next }: Job): boolean =>
  !replaced && reached.length === 0 && next.length > 0;
