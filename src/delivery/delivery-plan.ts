import { afterMinutes, afterSeconds, type MonotonicMillis, type Now } from '../time/instant.ts';
import { isActive, type Call } from './call.ts';
import type { Form } from './message.ts';
import { ALL_WELL_LIFE_MINUTES, LIFE_MINUTES, NEXT_PERSON_SECONDS } from './delivery-bounds.ts';
import {
  isUnderWay,
  type DeliverySettings,
  type DeliveryState,
  type Errand,
  type Job,
} from './delivery-state.ts';
import { calledInOrder, isNight, type Person } from './rota.ts';
import { toldOf, turnOf, withCalled, withOver } from './told.ts';

const rankOf = (call: Call): number => {
  if (call.kind === 'all-well') return 3;
  if (!isActive(call) || call.priority === 'low') return 2;
  return call.priority === 'high' ? 0 : 1;
};
const lifeMinutes = (call: Call): number =>
  call.kind === 'all-well' ? ALL_WELL_LIFE_MINUTES : LIFE_MINUTES[call.priority];

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

/** What still waits of earlier jobs of these keys gives way; what is under way goes on. */
export const makeWay = (jobs: readonly Job[], keys: readonly string[]): readonly Job[] =>
  jobs.flatMap((job) => {
    if (!keys.includes(job.key)) return [job];
    const errands = job.errands.filter(isUnderWay);
    return errands.length === 0 ? [] : [{ ...job, replaced: true, errands }];
  });

/** Who was to hear of the same before, and to whom nothing has gone out: the newer text is theirs as well. */
const stillOwed = (jobs: readonly Job[], keys: readonly string[]): readonly string[] =>
  jobs.flatMap((job) =>
    keys.includes(job.key) && !job.replaced ? job.called.filter((name) => !job.reached.includes(name)) : [],
  );

const ALL_WELL: Call['kind'] = 'all-well';
const keyOf = ({ alarm, kind }: Call): string => alarm ?? kind;
/** The older texts that a call takes the place of: its own, and those of alarms that it speaks for. */
const spokenFor = (call: Call): readonly string[] => [keyOf(call), ...(isActive(call) ? call.also : [])];

interface Called {
  /** Whom a call is for at once. */
  readonly first: readonly Person[];
  /** Who comes next when nothing reaches them. */
  readonly next: readonly Person[];
  readonly told: DeliveryState['told'];
}

const peopleFor = (
  { jobs, told }: DeliveryState,
  settings: DeliverySettings,
  call: Call,
  now: Now,
): Called => {
  const order = calledInOrder(settings.rota, now.wall).filter(
    (person) => errandsTo(settings, call, person, now).length > 0,
  );
  const { alarm, seenBy } = call;
  if (call.kind === 'returned' && alarm !== null) {
    // Whoever was called hears that it is over, and whoever answered. Of a version that did not remember: as many as it had called.
    const { called } = toldOf(told, alarm);
    const names = called.length > 0 ? called : order.slice(0, call.rung + 1).map(({ name }) => name);
    const first = order.filter(({ name }) => names.includes(name) || name === seenBy);
    return { first, next: [], told: withOver(told, alarm) };
  }
  const { person, round } = turnOf(told, call, order);
  const owed = stillOwed(jobs, spokenFor(call));
  // What was seen and still stands is told to whoever saw it too: they took it upon them.
  const seer = call.kind === 'again' ? seenBy : null;
  const first = order.filter((each) => each === person || each.name === seer || owed.includes(each.name));
  const goesOn = isActive(call) && call.priority !== 'low';
  const others = order.filter((each) => !first.includes(each));
  const next = goesOn
    ? [
        ...others.filter(({ name }) => !round.includes(name)),
        ...others.filter(({ name }) => round.includes(name)),
      ]
    : [];
  const names = first.map(({ name }) => name);
  return { first, next, told: withCalled(told, call, names, round) };
};

/** A call becomes a job, at once due. */
export const withCall = (
  state: DeliveryState,
  settings: DeliverySettings,
  call: Call,
  now: Now,
): DeliveryState => {
  const { first, next, told } = peopleFor(state, settings, call, now);
  const posts = channelsFor(settings, 'post').map((channel) => errand('post', channel, null, now.monotonic));
  const made = numbered({ ...state, told, nextId: state.nextId + 1 }, [
    ...first.flatMap((person) => errandsTo(settings, call, person, now)),
    ...posts,
  ]);
  const job: Job = {
    id: state.nextId,
    key: keyOf(call),
    rank: rankOf(call),
    call,
    text: null,
    opening: null,
    madeAt: now.monotonic,
    untilAt: afterMinutes(now.monotonic, lifeMinutes(call)),
    replaced: false,
    errands: made.errands,
    called: first.map(({ name }) => name),
    reached: [],
    next: next.map(({ name }) => name),
    nextAt: afterSeconds(now.monotonic, NEXT_PERSON_SECONDS),
  };
  // That all is well is not said behind an alarm.
  const gone = [...spokenFor(call), ...(isActive(call) ? [ALL_WELL] : [])];
  return { ...made.state, jobs: [...makeWay(state.jobs, gone), job] };
};
