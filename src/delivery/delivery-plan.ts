import { afterMinutes, afterSeconds, type MonotonicMillis, type Now } from '../time/instant.ts';
import { isActive, type Call } from './call.ts';
import type { Form } from './message.ts';
import { LIFE_MINUTES, NEXT_PERSON_SECONDS } from './delivery-bounds.ts';
import {
  isUnderWay,
  type DeliverySettings,
  type DeliveryState,
  type Errand,
  type Job,
} from './delivery-state.ts';
import { calledInOrder, isNight, type Person } from './rota.ts';

const rankOf = (call: Call): number => {
  if (call.kind === 'all-well') return 3;
  if (!isActive(call) || call.priority === 'low') return 2;
  return call.priority === 'high' ? 0 : 1;
};

/**
 * By what a person is called. A phone rings for what cannot wait: at night, and whenever it has been told in vain.
 * What can wait goes by mail alone, where there is mail.
 */
const formsFor = (call: Call, night: 'night' | 'day', byMail: 'mail' | 'none'): readonly Form[] => {
  if (call.priority === 'low' && call.kind !== 'all-well') return byMail === 'mail' ? ['mail'] : ['text'];
  const rings = isActive(call) && call.priority === 'high' && (night === 'night' || call.kind !== 'raised');
  return rings ? ['ring', 'text', 'mail'] : ['text', 'mail'];
};

const channelsFor = ({ channels }: DeliverySettings, form: Form): readonly string[] =>
  channels.filter(({ forms }) => forms.includes(form)).map(({ name }) => name);

/** Whether a form has a way to this person. */
export const canTake = ({ phone, email }: Person, form: Form): boolean =>
  form === 'mail' ? email !== undefined : phone !== undefined;

type Numbered = Omit<Errand, 'id'>;

export const errand = (
  form: Form,
  channel: string,
  person: string | null,
  dueAt: MonotonicMillis,
): Numbered => ({
  form,
  channel,
  person,
  tries: 0,
  ringsInVain: 0,
  dueAt,
  endsAt: null,
});

/** The errands by which one person is called; none where no way leads to them. */
export const errandsTo = (
  settings: DeliverySettings,
  call: Call,
  person: Person,
  now: Now,
): readonly Numbered[] => {
  const night = isNight(settings.rota, now.wall) ? 'night' : 'day';
  const byMail = canTake(person, 'mail') && channelsFor(settings, 'mail').length > 0 ? 'mail' : 'none';
  return formsFor(call, night, byMail)
    .filter((form) => canTake(person, form))
    .flatMap((form) =>
      channelsFor(settings, form).map((channel) => errand(form, channel, person.name, now.monotonic)),
    );
};

/** Gives numbers to what has none. */
export const numbered = (
  state: DeliveryState,
  errands: readonly Numbered[],
): { readonly state: DeliveryState; readonly errands: readonly Errand[] } => ({
  state: { ...state, nextId: state.nextId + errands.length },
  errands: errands.map((each, place) => ({ id: state.nextId + place, ...each })),
});

/** What still waits of earlier jobs of the same key gives way; what is under way goes on. */
export const makeWay = (jobs: readonly Job[], key: string): readonly Job[] =>
  jobs.flatMap((job) => {
    if (job.key !== key) return [job];
    const errands = job.errands.filter(isUnderWay);
    return errands.length === 0 ? [] : [{ ...job, replaced: true, errands }];
  });

/** Who was to hear of the same before, and to whom nothing has gone out: the newer text is theirs as well. */
const stillOwed = (jobs: readonly Job[], key: string): readonly string[] =>
  jobs.flatMap((job) =>
    job.key === key && !job.replaced ? job.called.filter((name) => !job.reached.includes(name)) : [],
  );

/** The people whom a call is for at once, and those who come next when nothing reaches them. */
const peopleFor = (
  settings: DeliverySettings,
  call: Call,
  owed: readonly string[],
  now: Now,
): { readonly first: readonly Person[]; readonly next: readonly Person[] } => {
  const reachable = (person: Person): boolean => errandsTo(settings, call, person, now).length > 0;
  if (call.kind === 'returned') {
    // Whoever was called hears that it is over.
    const called = calledInOrder(settings.rota, 0, now.wall).slice(0, call.rung + 1);
    return { first: called.filter(reachable), next: [] };
  }
  const all = calledInOrder(settings.rota, call.rung, now.wall).filter(reachable);
  const first = all.filter((person, place) => place === 0 || owed.includes(person.name));
  const goesOn = isActive(call) && call.priority !== 'low';
  return { first, next: goesOn ? all.filter((person) => !first.includes(person)) : [] };
};

/** A call becomes a job, at once due. */
export const withCall = (
  state: DeliveryState,
  settings: DeliverySettings,
  call: Call,
  now: Now,
): DeliveryState => {
  const key = call.alarm ?? call.kind;
  const { first, next } = peopleFor(settings, call, stillOwed(state.jobs, key), now);
  const posts = channelsFor(settings, 'post').map((channel) => errand('post', channel, null, now.monotonic));
  const made = numbered({ ...state, nextId: state.nextId + 1 }, [
    ...first.flatMap((person) => errandsTo(settings, call, person, now)),
    ...posts,
  ]);
  const job: Job = {
    id: state.nextId,
    key,
    rank: rankOf(call),
    call,
    text: null,
    untilAt: afterMinutes(now.monotonic, LIFE_MINUTES[call.priority]),
    replaced: false,
    errands: made.errands,
    called: first.map(({ name }) => name),
    reached: [],
    next: next.map(({ name }) => name),
    nextAt: afterSeconds(now.monotonic, NEXT_PERSON_SECONDS),
  };
  return { ...made.state, jobs: [...makeWay(state.jobs, key), job] };
};
