import { NOT_UNDERSTOOD } from '../alarm/language/text-answers.ts';
import {
  afterMinutes,
  afterSeconds,
  minutesBetween,
  type MonotonicMillis,
  type Now,
} from '../time/instant.ts';
import {
  ANSWER_AFTER_SECONDS,
  ANSWER_LIFE_MINUTES,
  ANSWERS_OF_A_DAY,
  type AnswerBounds,
} from './delivery-bounds.ts';
import { errand, makeWay, numbered } from './delivery-plan.ts';
import {
  isUnderWay,
  type Answered,
  type DeliverySettings,
  type DeliveryState,
  type Job,
} from './delivery-state.ts';
import type { Person } from './rota.ts';

/** A person who asks stands there and waits. */
const ANSWER_RANK = 1;
const DAY_MINUTES = 24 * 60;

/** Of the last 24 h. */
const given = (state: DeliveryState, { name }: Person, now: MonotonicMillis): readonly Answered[] =>
  (state.answered[name] ?? []).filter(({ at }) => minutesBetween(at, now) < DAY_MINUTES);

/** When the next one may go at the earliest; null where there have been enough. */
const mayGoAt = (
  before: readonly Answered[],
  { apartMinutes, most }: AnswerBounds,
): MonotonicMillis | null => {
  const last = before.at(-1);
  if (last === undefined) return -Infinity as MonotonicMillis;
  return before.length >= most ? null : afterMinutes(last.at, apartMinutes);
};

/** It says what is newest when it goes out; taking its place again and again would keep it from going. */
const isWaiting = ({ jobs }: DeliveryState, key: string): boolean =>
  jobs.some((job) => job.key === key && job.errands.some((each) => !isUnderWay(each)));

/** What waits already says what else there is to say. */
const withOpening = (state: DeliveryState, key: string, opening: string): DeliveryState => ({
  ...state,
  jobs: state.jobs.map((job) => (job.key === key && !job.replaced ? { ...job, opening } : job)),
});

interface Wanted {
  readonly kind: Answered['kind'];
  readonly key: string;
  readonly dueAt: MonotonicMillis;
  /** Null: the newest sentence of the host. */
  readonly text: string | null;
  /** What is said before it; null where nothing is. */
  readonly opening: string | null;
}

const withWanted = (
  state: DeliveryState,
  person: Person,
  channel: string,
  { kind, key, dueAt, text, opening }: Wanted,
  { monotonic }: Now,
): DeliveryState => {
  const made = numbered({ ...state, nextId: state.nextId + 1 }, [
    errand('text', channel, person.name, dueAt),
  ]);
  const job: Job = {
    id: state.nextId,
    key,
    rank: ANSWER_RANK,
    call: null,
    text,
    opening,
    madeAt: monotonic,
    untilAt: afterMinutes(monotonic, ANSWER_LIFE_MINUTES),
    replaced: false,
    errands: made.errands,
    called: [person.name],
    reached: [],
    next: [],
    nextAt: afterMinutes(monotonic, ANSWER_LIFE_MINUTES),
  };
  return {
    ...made.state,
    jobs: [...makeWay(state.jobs, [key]), job],
    answered: {
      ...state.answered,
      [person.name]: [...given(state, person, monotonic), { kind, at: dueAt }],
    },
  };
};

/**
 * The newest sentence of the host, to whoever asked for it by text or has acknowledged. A number is forged in no time, and
 * each answer costs: one that comes within a minute of another waits for its end, and after many of a day none comes.
 */
export const withAnswer = (
  state: DeliveryState,
  person: Person,
  channel: string,
  asked: { readonly when: 'now' | 'after-acknowledging'; readonly opening: string | null },
  now: Now,
): DeliveryState => {
  const key = `answer to ${person.name}`;
  const { when, opening } = asked;
  if (isWaiting(state, key)) return opening === null ? state : withOpening(state, key, opening);
  const of = given(state, person, now.monotonic).filter(({ kind }) => kind === 'state');
  const mayGo = mayGoAt(of, ANSWERS_OF_A_DAY.state);
  if (mayGo === null) return state;
  const wish = when === 'now' ? now.monotonic : afterSeconds(now.monotonic, ANSWER_AFTER_SECONDS);
  const dueAt = mayGo > wish ? mayGo : wish;
  return withWanted(state, person, channel, { kind: 'state', key, dueAt, text: null, opening }, now);
};

/** What is understood, to a listed person who wrote something else; seldom, for a machine may write at that number. */
export const withHint = (
  state: DeliveryState,
  { language }: DeliverySettings,
  person: Person,
  channel: string,
  now: Now,
): DeliveryState => {
  const of = given(state, person, now.monotonic).filter(({ kind }) => kind === 'hint');
  const mayGo = mayGoAt(of, ANSWERS_OF_A_DAY.hint);
  if (mayGo === null || mayGo > now.monotonic) return state;
  const hint = { kind: 'hint', key: `hint to ${person.name}`, dueAt: now.monotonic } as const;
  return withWanted(state, person, channel, { ...hint, text: NOT_UNDERSTOOD[language], opening: null }, now);
};
