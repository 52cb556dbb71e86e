import type { Form } from './message.ts';

/**
 * The bounds of delivery. Where no source is named they are common practice, no source; their relations are what
 * matters, and the tests hold them.
 */

/** The first attempt of a call begins this soon at the latest, unless every channel is busy with worse. */
export const FIRST_ATTEMPT_SECONDS = 5;
/** How long a call of high priority waits for a channel that is busy with something less urgent. */
export const PREEMPT_SECONDS = 3;

/** After this the other side is taken for hung. The modem has 60 s for a text: networks are slow when they are full. */
export const ATTEMPT_SECONDS: Readonly<Record<Form, number>> = { ring: 75, text: 60, mail: 45, post: 15 };

export const BACK_OFF_FIRST_SECONDS = 15;
export const BACK_OFF_MOST_SECONDS = 300;
/** After so many tries, more than an hour, what goes to a person is tried less often; a posting costs nobody a thing. */
const TRIES_MANY = 16;
const BACK_OFF_LATE_SECONDS = 900;

/**
 * So often a phone that is off, busy or out of its network is rung for one call, within two minutes: some phones let only the
 * second call of a few minutes through the night. The text waits for it in the network; the next call of the alarm rings anew.
 */
export const RINGS_IN_VAIN_MAX = 3;

/** A person to whom nothing has gone out by then is left to the retries, and the next one is called as well. */
export const NEXT_PERSON_SECONDS = 90;
/** Nor is the next person kept waiting when each way to this one has failed so often. */
export const TRIES_BEFORE_NEXT_PERSON = 2;

/**
 * So long a call is tried. One of high priority has been told again by then, with the time left of that moment; of any that
 * nobody has got yet, and of what a dead channel owes, it begins anew.
 */
export const LIFE_MINUTES = { high: 240, medium: 60, low: 60 } as const;
/** That all is well holds for a while only. */
export const ALL_WELL_LIFE_MINUTES = 15;
/** An answer of a while ago helps nobody. */
export const ANSWER_LIFE_MINUTES = 10;
export interface AnswerBounds {
  readonly apartMinutes: number;
  /** Of 24 h. */
  readonly most: number;
}
/**
 * Answers to the texts of one person. Of the state: more than anybody asks in a bad night, and few enough that forged
 * questions empty no card. Of what is understood: two machines that answer each other end there.
 */
export const ANSWERS_OF_A_DAY: Readonly<Record<'state' | 'hint', AnswerBounds>> = {
  state: { apartMinutes: 1, most: 20 },
  hint: { apartMinutes: 60, most: 4 },
};
/** The controller takes up an "ok" within this, so that the answer shows it. */
export const ANSWER_AFTER_SECONDS = 3;
/** A sentence older than this is told with its age. */
export const SENTENCE_FRESH_SECONDS = 60;

/** The clocks of the network and of the host may be so far apart: a jump of less is none (`time/clock-trust`). */
export const CLOCKS_APART_MINUTES = 10;
/** No network keeps a text for longer that a phone is to take; common practice, no source. */
export const TEXT_OLD_DAYS = 7;

/** A call that goes out later than this says when it was made: what it tells may have changed since. */
export const LATE_MINUTES = 5;
/** Beyond this a time of day does not say of which day it is (`alarm/facts`). */
export const SAID_AS_CLOCK_HOURS = 20;

/** Calls that wait at once. More are an avalanche; then the least urgent, oldest ones give way, and that is told. */
export const JOBS_MAX = 32;

/** A channel that failed so often in a row, or for so long, is called dead. */
export const DEAD_AFTER_FAILURES = 3;
export const DEAD_AFTER_SECONDS = 120;

/** A channel is looked at this often, so that it is known to be dead before it is needed. */
export const CHECK_WELL_MINUTES = 30;
export const CHECK_DEAD_MINUTES = 5;
export const CHECK_SECONDS = 60;

export const backOffSeconds = (tries: number, form: Form): number =>
  tries > TRIES_MANY && form !== 'post'
    ? BACK_OFF_LATE_SECONDS
    : Math.min(BACK_OFF_MOST_SECONDS, BACK_OFF_FIRST_SECONDS * (1 << Math.min(tries - 1, 10)));
