import { afterSeconds, type MonotonicMillis, type Now } from '../time/instant.ts';
import { NOTHING_SEEN } from '../alarm/language/text-answers.ts';
import type { Known } from '../alarm/meant.ts';
import type { Call } from './call.ts';
import { withForgotten } from './channel-health.ts';
import { NEXT_PERSON_SECONDS, TRIES_BEFORE_NEXT_PERSON } from './delivery-bounds.ts';
import { launched, preemptsAt } from './delivery-launch.ts';
import { withAnswer, withHint } from './answers.ts';
import { errandsTo, numbered, withCall } from './delivery-plan.ts';
import { isOpen, settled, tidied, withHungEnded } from './delivery-settle.ts';
import {
  isUnderWay,
  type Delivered,
  type DeliveryEvent,
  type DeliverySettings,
  type DeliveryState,
  type Job,
} from './delivery-state.ts';
import { senderOf } from './rota.ts';
import { knownTo, sentMoment, withCalled } from './told.ts';

const nothing = (state: DeliveryState): Delivered => ({ state, effects: [] });

/** A call that no channel can carry to anybody is told as failed, at once. */
const told = (state: DeliveryState, call: Call): Delivered => {
  const job = state.jobs.at(-1);
  if (job === undefined || job.errands.length > 0) return nothing(state);
  const why = 'no channel leads to anybody';
  const heard = {
    kind: 'failed',
    call,
    channel: 'none',
    form: 'none',
    person: null,
    why,
    attempt: 0,
  } as const;
  return { state, effects: [{ kind: 'heard', heard }] };
};

const LAST_DIGITS = 3;
/** No letter and no digit around it, so that neither "not ok" nor "ok?" says that somebody has seen the alarm. */
const SEEN = /^[^\p{L}\p{N}?]*o\.?k(?:ay)?[^\p{L}\p{N}?]*$/iu;
const ASKED = /^[^\p{L}\p{N}?]*\?[^\p{L}\p{N}]*$/u;
/** Nothing is written in it: no person waits for an answer. */
const EMPTY = /^\s*$/;

/** After an "ok" nobody calls them on about what they have seen. Whoever was not reached is called all the same. */
const withSeen = (state: DeliveryState, name: string, known: readonly Known[]): DeliveryState => ({
  ...state,
  jobs: state.jobs.map((job) =>
    job.reached.includes(name) && known.some(({ alarm }) => alarm === job.call?.alarm)
      ? {
          ...job,
          next: [],
          errands: job.errands.filter((errand) => isUnderWay(errand) || errand.person === null),
        }
      : job,
  ),
});

const textCame = (
  state: DeliveryState,
  settings: DeliverySettings,
  { channel, from, text, sentAt }: Extract<DeliveryEvent, { kind: 'text-came' }>,
  now: Now,
): Delivered => {
  const person = senderOf(settings.rota, from);
  if (person === undefined) {
    const lastDigits = from.replace(/\D/g, '').slice(-LAST_DIGITS);
    return { state, effects: [{ kind: 'heard', heard: { kind: 'stranger', channel, lastDigits } }] };
  }
  const who = person.name;
  if (ASKED.test(text)) {
    return {
      state: withAnswer(state, person, channel, { when: 'now', opening: null }, now),
      effects: [{ kind: 'heard', heard: { kind: 'asked', who, channel } }],
    };
  }
  if (SEEN.test(text)) {
    const known = knownTo(state.told, who, sentMoment(sentAt, now));
    const opening = known.length === 0 ? NOTHING_SEEN[settings.language] : null;
    return {
      state: withAnswer(
        withSeen(state, who, known),
        person,
        channel,
        { when: 'after-acknowledging', opening },
        now,
      ),
      effects: [{ kind: 'heard', heard: { kind: 'acknowledge', who, channel, known } }],
    };
  }
  return {
    state: EMPTY.test(text) ? state : withHint(state, settings, person, channel, now),
    effects: [{ kind: 'heard', heard: { kind: 'not-understood', who, channel } }],
  };
};

const afterEvent = (
  state: DeliveryState,
  settings: DeliverySettings,
  event: DeliveryEvent,
  now: Now,
): Delivered => {
  switch (event.kind) {
    case 'tell':
      return told(withCall(state, settings, event.call, now), event.call);
    case 'says':
      return nothing({ ...state, sentence: { text: event.sentence, at: now.monotonic } });
    case 'came':
      return settled(state, event.id, event.result, now.monotonic);
    case 'text-came':
      return textCame(state, settings, event, now);
    case 'tick':
      return nothing(state);
  }
};

/** Whether the way to the last one called has failed often enough. */
const isInVain = ({ called, errands }: Job): boolean =>
  errands
    .filter(({ person }) => person !== null && person === called.at(-1))
    .every(({ tries }) => tries >= TRIES_BEFORE_NEXT_PERSON);

/** A call that has reached nobody goes to the next person as well. */
const withNextPeople = (before: DeliveryState, settings: DeliverySettings, now: Now): DeliveryState => {
  let state = before;
  for (const job of before.jobs) {
    const { call } = job;
    if (call === null || !isOpen(job) || (now.monotonic < job.nextAt && !isInVain(job))) continue;
    const [name, ...next] = job.next;
    const person = settings.rota.people.find((each) => each.name === name);
    const made = numbered(state, person === undefined ? [] : errandsTo(settings, call, person, now));
    const gone: Job = {
      ...job,
      errands: [...job.errands, ...made.errands],
      called: name === undefined ? job.called : [...job.called, name],
      next,
      nextAt: afterSeconds(now.monotonic, NEXT_PERSON_SECONDS),
    };
    state = {
      ...made.state,
      told: name === undefined ? state.told : withCalled(state.told, call, [name]),
      jobs: state.jobs.map((each) => (each.id === job.id ? gone : each)),
    };
  }
  return state;
};

/**
 * Delivery as a state machine: what to send, through which channel, to whom and when again. It knows no network and
 * no clock, and never waits for a channel: one that hangs is told to stop and counts as failed.
 */
export const step = (
  state: DeliveryState,
  settings: DeliverySettings,
  event: DeliveryEvent,
  now: Now,
): Delivered => {
  const heard = afterEvent(state, settings, event, now);
  const ended = withHungEnded(heard.state, now.monotonic);
  const tidy = tidied(withNextPeople(ended.state, settings, now), now);
  const begun = launched(withForgotten(tidy.state, settings), settings, now);
  return {
    state: begun.state,
    effects: [...heard.effects, ...ended.effects, ...tidy.effects, ...begun.effects],
  };
};

/** When the next tick is needed, if nothing comes before; null when nothing waits. */
export const wakesAt = (
  { jobs, health }: DeliveryState,
  { channels }: DeliverySettings,
  { monotonic }: Now,
): MonotonicMillis | null => {
  const moments = [
    ...jobs.flatMap((job) => [
      job.untilAt,
      ...(isOpen(job) ? [job.nextAt] : []),
      ...job.errands.flatMap((errand) =>
        errand.endsAt === null ? [errand.dueAt, preemptsAt(errand)] : [errand.endsAt],
      ),
    ]),
    ...channels.flatMap(({ name, checks }) => {
      const each = health[name];
      if (each === undefined || checks === 'no') return [];
      return [each.checking?.endsAt ?? each.checkAt];
    }),
  ].filter((moment) => moment > monotonic);
  return moments.length === 0 ? null : (Math.min(...moments) as MonotonicMillis);
};
