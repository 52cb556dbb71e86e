import { cutAtWord, toGsm7 } from '../alarm/language/gsm7.ts';
import { MESSAGE_LETTERS_MAX } from '../alarm/language/message.ts';
import { NOTHING_KNOWN, SAID_BEFORE } from '../alarm/language/text-answers.ts';
import { localClockText } from '../time/local-day.ts';
import {
  afterMinutes,
  afterSeconds,
  minutesBetween,
  secondsBetween,
  wallAfterMinutes,
  type MonotonicMillis,
  type Now,
} from '../time/instant.ts';
import type { Call } from './call.ts';
import type { Form, Message } from './message.ts';
import {
  ATTEMPT_SECONDS,
  CHECK_SECONDS,
  CHECK_WELL_MINUTES,
  LATE_MINUTES,
  PREEMPT_SECONDS,
  SAID_AS_CLOCK_HOURS,
  SENTENCE_FRESH_SECONDS,
} from './delivery-bounds.ts';
import { withHealth } from './channel-health.ts';
import {
  isUnderWay,
  type ChannelTraits,
  type Delivered,
  type DeliveryEffect,
  type DeliverySettings,
  type DeliveryState,
  type Errand,
  type Job,
} from './delivery-state.ts';
import { addressee } from './rota.ts';

interface Waiting {
  readonly job: Job;
  readonly errand: Errand;
}

/** The phone rings before its text comes: it wakes, the text tells. */
const FORM_ORDER: Readonly<Record<Form, number>> = { ring: 0, text: 1, mail: 2, post: 3 };

const onChannel = ({ jobs }: DeliveryState, name: string): readonly Waiting[] =>
  jobs.flatMap((job) =>
    job.errands.filter(({ channel }) => channel === name).map((errand) => ({ job, errand })),
  );

/** The most urgent first; of those the ones that were never tried, so that none is held up by the retries of others. */
const byUrgency = (one: Waiting, other: Waiting): number =>
  one.job.rank - other.job.rank ||
  Math.min(1, one.errand.tries) - Math.min(1, other.errand.tries) ||
  one.job.id - other.job.id ||
  FORM_ORDER[one.errand.form] - FORM_ORDER[other.errand.form];

const withErrand = (
  state: DeliveryState,
  { job, errand }: Waiting,
  changed: Partial<Errand>,
): DeliveryState => ({
  ...state,
  jobs: state.jobs.map((each) =>
    each.id === job.id
      ? {
          ...each,
          errands: each.errands.map((old) => (old.id === errand.id ? { ...old, ...changed } : old)),
        }
      : each,
  ),
});

const sentenceText = (
  { sentence }: DeliveryState,
  { language }: DeliverySettings,
  now: MonotonicMillis,
): string => {
  if (sentence === null) return NOTHING_KNOWN[language];
  const age = secondsBetween(sentence.at, now);
  return age <= SENTENCE_FRESH_SECONDS
    ? sentence.text
    : `${SAID_BEFORE[language](Math.round(age / 60))} ${sentence.text}`;
};

const answerText = (
  state: DeliveryState,
  settings: DeliverySettings,
  { opening, text }: Job,
  now: MonotonicMillis,
): string => [opening, text ?? sentenceText(state, settings, now)].filter((part) => part !== null).join(' ');

/** The call with the time left of this moment: so much has gone since it was made. */
const callNow = (call: Call, ageMinutes: number): Call =>
  call.minutesLeft === null
    ? call
    : { ...call, minutesLeft: Math.max(0, call.minutesLeft - Math.floor(ageMinutes)) };

/** "(13:42) " before a text that was held up, "(-26 h) " where no time of day would tell; it reads alike in every language. */
const ageWords = (ageMinutes: number, timeZone: string, { wall }: Now): string => {
  if (ageMinutes < LATE_MINUTES) return '';
  if (ageMinutes >= SAID_AS_CLOCK_HOURS * 60) return `(-${Math.round(ageMinutes / 60)} h) `;
  return wall === 'unknown'
    ? `(-${Math.round(ageMinutes)} min) `
    : `(${localClockText(wallAfterMinutes(wall, -ageMinutes), timeZone)}) `;
};

const messageOf = (
  state: DeliveryState,
  settings: DeliverySettings,
  { job, errand }: Waiting,
  now: Now,
): Message => {
  const { rota } = settings;
  const person = rota.people.find(({ name }) => name === errand.person);
  const { call } = job;
  const to = person === undefined ? null : addressee(person);
  const { id, form } = errand;
  if (call === null) {
    const text = answerText(state, settings, job, now.monotonic);
    return { id, form, to, text, call, calledAt: null, purpose: 'answer' };
  }
  const age = minutesBetween(job.madeAt, now.monotonic);
  const words = ageWords(age, rota.timeZone, now);
  const short =
    words === '' ? call.message : cutAtWord(toGsm7(`${words}${call.message}`), MESSAGE_LETTERS_MAX);
  return {
    id,
    form,
    to,
    text: form === 'text' ? short : `${words}${call.text}`,
    call: callNow(call, age),
    calledAt: now.wall === 'unknown' ? null : wallAfterMinutes(now.wall, -age),
    purpose: 'call',
  };
};

const launchedOn = (
  before: DeliveryState,
  settings: DeliverySettings,
  { name, most }: ChannelTraits,
  at: Now,
): Delivered => {
  const now = at.monotonic;
  let state = before;
  const effects: DeliveryEffect[] = [];
  const all = onChannel(state, name);
  const due = all.filter(({ errand }) => !isUnderWay(errand) && errand.dueAt <= now).toSorted(byUrgency);
  const running = all.filter(({ errand }) => isUnderWay(errand));
  const checking = state.health[name]?.checking ?? null;
  if (due.length > 0 && checking !== null) {
    effects.push({ kind: 'abort', id: checking.id });
    state = withoutLook(state, name, now);
  }
  const start = (waiting: Waiting): void => {
    effects.push({ kind: 'send', channel: name, message: messageOf(state, settings, waiting, at) });
    const endsAt = afterSeconds(now, ATTEMPT_SECONDS[waiting.errand.form]);
    state = withErrand(state, waiting, { endsAt, dueAt: now });
  };
  const free = Math.max(0, most - running.length);
  for (const waiting of due.slice(0, free)) start(waiting);

  // What nobody may have to get up for gives its place to what cannot wait; it comes again at once.
  const [urgent] = due.slice(free);
  if (urgent !== undefined && mayPreempt(urgent, now)) {
    const [least] = running.toSorted((one, other) => byUrgency(other, one));
    if (least !== undefined && least.job.rank > urgent.job.rank) {
      effects.push({ kind: 'abort', id: least.errand.id });
      state = withErrand(state, least, { endsAt: null, dueAt: now });
      start(urgent);
    }
  }
  return { state, effects };
};

const mayPreempt = ({ job, errand }: Waiting, now: MonotonicMillis): boolean =>
  job.rank === 0 && secondsBetween(errand.dueAt, now) >= PREEMPT_SECONDS;

/** When what waits for a busy channel may take the place of something less urgent. */
export const preemptsAt = ({ dueAt }: Errand): MonotonicMillis => afterSeconds(dueAt, PREEMPT_SECONDS);

const withoutLook = (state: DeliveryState, name: string, now: MonotonicMillis): DeliveryState => {
  const health = state.health[name];
  if (health === undefined) return state;
  return withHealth(state, name, {
    ...health,
    checking: null,
    checkAt: afterMinutes(now, CHECK_WELL_MINUTES),
  });
};

/** Looks at a channel that is idle, when its time has come. */
const lookedAt = (state: DeliveryState, { name, checks }: ChannelTraits, now: MonotonicMillis): Delivered => {
  const health = state.health[name];
  const idle = onChannel(state, name).every(({ errand }) => !isUnderWay(errand));
  if (checks === 'no' || health?.checking !== null || health.checkAt > now || !idle) {
    return { state, effects: [] };
  }
  const checking = { id: state.nextId, endsAt: afterSeconds(now, CHECK_SECONDS) };
  return {
    state: withHealth({ ...state, nextId: state.nextId + 1 }, name, { ...health, checking }),
    effects: [{ kind: 'check', channel: name, id: checking.id }],
  };
};

/** Begins whatever may begin now. */
export const launched = (state: DeliveryState, settings: DeliverySettings, now: Now): Delivered =>
  settings.channels.reduce<Delivered>(
    (before, channel) => {
      const sending = launchedOn(before.state, settings, channel, now);
      const looking = lookedAt(sending.state, channel, now.monotonic);
      return {
        state: looking.state,
        effects: [...before.effects, ...sending.effects, ...looking.effects],
      };
    },
    { state, effects: [] },
  );
