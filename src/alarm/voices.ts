import { afterMinutes, type MonotonicMillis } from '../time/instant.ts';
import type { Alarm, Alarms } from './alarm.ts';
import type { AlarmKind, Card } from './card.ts';
import {
  againMinutes,
  escalates,
  escalationMinutes,
  reminds,
  sooner,
  speaksAgain,
  unexplainedMinutes,
  type Pace,
} from './escalation.ts';
import { followers, speaker } from './grouping.ts';
import type { Voice } from './voice.ts';
import { goesOn, isOverTold, WAVERS_MINUTES } from './wavering.ts';

export type { Voice } from './voice.ts';

interface Look extends Pace {
  readonly alarms: Alarms;
  readonly voices: readonly Voice[];
  readonly now: MonotonicMillis;
}

const voiceOf = (voices: readonly Voice[], kind: AlarmKind): Voice | undefined =>
  voices.find(({ card }) => card.kind === kind);

/**
 * A cause that shows itself later goes on with the people that were called for what it explains. What had come to be a mere reminder
 * is days old: its cause begins with the first person, and with haste.
 */
const inheritedRung = ({ alarms, voices }: Look, alarm: Alarm): number =>
  Math.max(
    -1,
    ...followers(alarms, alarm)
      .map(({ card }) => voiceOf(voices, card.kind))
      .map((voice) => (voice?.phase === 'called' && !reminds(voice.card, voice.rung) ? voice.rung - 1 : -1)),
  );

const raised = (look: Look, alarm: Alarm, isSpokenFor: boolean): Voice => ({
  card: alarm.card,
  raisedAt: alarm.raisedAt,
  since: alarm.raisedAt,
  endedAt: null,
  wavers: false,
  leftMinutes: null,
  phase: 'waiting',
  seenBy: null,
  rung: isSpokenFor ? -1 : inheritedRung(look, alarm),
  calledAt: null,
  dueAt: isSpokenFor ? null : look.now,
  unexplainedAt: null,
});

/** From a call that nobody answers to the next, minutes; null when there is none. */
const unansweredMinutes = (card: Card, rung: number, pace: Pace): number | null => {
  if (escalates(card, rung)) return escalationMinutes(pace, rung);
  return reminds(card, rung) ? againMinutes(card, pace) : null;
};

/** The same once somebody has. */
const answeredMinutes = (card: Card, pace: Pace): number | null =>
  speaksAgain(card) ? againMinutes(card, pace) : null;

/** One that has come again before its end was told goes on as if it had stood: who is called next, and when. */
const backAgain = (look: Look, alarm: Alarm, before: Voice): Voice => {
  const { calledAt, rung } = before;
  const isSeen = alarm.state === 'active-acknowledged';
  const minutes = isSeen ? answeredMinutes(alarm.card, look) : unansweredMinutes(alarm.card, rung, look);
  return {
    ...before,
    card: alarm.card,
    raisedAt: alarm.raisedAt,
    phase: isSeen ? 'seen' : 'called',
    endedAt: null,
    wavers: true,
    dueAt: minutes !== null && calledAt !== null ? afterMinutes(calledAt, minutes) : null,
  };
};

/** An alarm that has been raised since its voice was last looked at. */
const raisedAnew = (look: Look, alarm: Alarm, before: Voice | undefined, isSpokenFor: boolean): Voice => {
  const anew = raised(look, alarm, isSpokenFor);
  const { minutesLeft, now } = look;
  if (before === undefined || isSpokenFor || !goesOn(before, alarm.card, minutesLeft, now)) return anew;
  return isOverTold(before) ? { ...anew, wavers: true } : backAgain(look, alarm, before);
};

/** An alarm that nobody has acknowledged. */
const unanswered = (look: Look, alarm: Alarm, voice: Voice, isSpokenFor: boolean): Voice => {
  const { minutesLeft, now } = look;
  const same = { ...voice, card: alarm.card };
  if (isSpokenFor) return { ...same, dueAt: null, unexplainedAt: null };
  const isWaiting = voice.phase === 'waiting';
  // What was to be called at once stays due, though it is held back.
  if (isWaiting && voice.dueAt !== null && voice.unexplainedAt === null) return same;
  const wasSpokenFor = voice.unexplainedAt !== null || voice.dueAt === null;
  if (isWaiting || (wasSpokenFor && escalates(alarm.card, voice.rung))) {
    const unexplainedAt = voice.unexplainedAt ?? now;
    // By the time left as it is now, for the water that comes back meanwhile makes it more.
    return { ...same, unexplainedAt, dueAt: afterMinutes(unexplainedAt, unexplainedMinutes(minutesLeft())) };
  }
  const isDue = voice.dueAt !== null && voice.dueAt <= now;
  // What only reminds does not press: its moment stays.
  if (isDue || (voice.dueAt !== null && reminds(alarm.card, voice.rung))) return same;
  const minutes = unansweredMinutes(alarm.card, voice.rung, look);
  return { ...same, dueAt: minutes === null ? null : sooner(voice.dueAt, now, minutes) };
};

const seen = (look: Look, alarm: Alarm, voice: Voice | undefined, isSpokenFor: boolean): Voice => {
  const { now } = look;
  // It is acknowledged from the beginning only where it goes on.
  if (voice?.phase === 'over' && !isSpokenFor) return backAgain(look, alarm, voice);
  const before: Voice = voice ?? { ...raised(look, alarm, true), phase: 'seen' };
  const isNew = before.phase !== 'seen';
  const same: Voice = {
    ...before,
    card: alarm.card,
    raisedAt: alarm.raisedAt,
    phase: 'seen',
    rung: isNew ? -1 : before.rung,
  };
  if (alarm.state === 'shelved' || isSpokenFor || !speaksAgain(alarm.card)) return { ...same, dueAt: null };
  const planned = isNew ? null : before.dueAt;
  if (planned !== null && planned <= now) return same;
  return { ...same, dueAt: sooner(planned, now, againMinutes(alarm.card, look)) };
};

/** The voice of an alarm in the list, from the one that it had; null when it has none. */
const voiceNow = (look: Look, alarm: Alarm): Voice | null => {
  const before = voiceOf(look.voices, alarm.card.kind);
  const isSpokenFor = speaker(look.alarms, alarm) !== alarm;
  switch (alarm.state) {
    case 'active-unacknowledged': {
      const isNew = before?.raisedAt !== alarm.raisedAt || before.phase === 'seen' || before.phase === 'over';
      return isNew
        ? raisedAnew(look, alarm, before, isSpokenFor)
        : unanswered(look, alarm, before, isSpokenFor);
    }
    case 'active-acknowledged':
    case 'shelved':
      return seen(look, alarm, before, isSpokenFor);
    case 'returned-unacknowledged':
      return before === undefined ? null : over(before, look.now);
  }
};

/**
 * Who was called hears that it is over; who was not has nothing to hear. Of one that comes and goes they hear it when it has
 * been away for good. It is remembered for as long, so that what comes again is known.
 */
const over = (voice: Voice, now: MonotonicMillis): Voice | null => {
  if (voice.phase === 'over') {
    const quietAt = afterMinutes(voice.endedAt ?? now, WAVERS_MINUTES);
    return isOverTold(voice) && quietAt <= now ? null : voice;
  }
  if (voice.calledAt === null) return null;
  const dueAt = voice.wavers ? afterMinutes(now, WAVERS_MINUTES) : now;
  return { ...voice, phase: 'over', endedAt: now, dueAt };
};

/** The voices once somebody has acknowledged an alarm: they hear of it again, and that it is over. */
export const seenNow = (voices: readonly Voice[], kind: AlarmKind, who: string): readonly Voice[] =>
  voices.map((voice) => (voice.card.kind === kind ? { ...voice, seenBy: who } : voice));

/** The voices after one more look at the alarms, in their order; those of alarms that have left come last. */
export const voicesAfter = (look: Look): readonly Voice[] => {
  const standing = look.alarms.map((alarm) => voiceNow(look, alarm));
  const kinds = new Set(look.alarms.map(({ card }) => card.kind));
  const left = look.voices.filter(({ card }) => !kinds.has(card.kind)).map((voice) => over(voice, look.now));
  return [...standing, ...left].filter((voice) => voice !== null);
};

/** The voice after a call; null when there is nothing more to say. */
export const calledNow = (voice: Voice, pace: Pace, now: MonotonicMillis): Voice | null => {
  if (voice.phase === 'over')
    return voice.wavers || voice.endedAt === null ? null : { ...voice, dueAt: null };
  const rung = voice.rung + 1;
  const next = { ...voice, rung, calledAt: now, leftMinutes: Math.floor(pace.minutesLeft()) };
  if (voice.phase === 'seen') return { ...next, dueAt: afterMinutes(now, againMinutes(voice.card, pace)) };
  const minutes = unansweredMinutes(voice.card, rung, pace);
  const dueAt = minutes === null ? null : afterMinutes(now, minutes);
  return { ...next, phase: 'called', dueAt, unexplainedAt: null };
};
