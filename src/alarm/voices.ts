import { afterMinutes, type MonotonicMillis } from '../time/instant.ts';
import type { Alarm, Alarms } from './alarm.ts';
import type { AlarmKind, Card } from './card.ts';
import {
  againMinutes,
  escalates,
  escalationMinutes,
  sooner,
  speaksAgain,
  unexplainedMinutes,
} from './escalation.ts';
import { followers, speaker } from './grouping.ts';

/** How far one alarm has been carried to people; plain data. */
export interface Voice {
  /** Its newest words: those of an alarm that is over are needed once more. */
  readonly card: Card;
  /** Which raising of the alarm it belongs to. */
  readonly raisedAt: MonotonicMillis;
  /** Not yet called; called and not answered; acknowledged or put off; over, and still to be said. */
  readonly phase: 'waiting' | 'called' | 'seen' | 'over';
  /** Who has acknowledged it; null where nobody has, or only before it was raised this time. */
  readonly seenBy: string | null;
  /** How many persons down the rota the last call went; −1 before the first, and after an answer. */
  readonly rung: number;
  readonly calledAt: MonotonicMillis | null;
  /** When it is to be called next; null when it is not, as while another alarm speaks for it. */
  readonly dueAt: MonotonicMillis | null;
  /** Since when nothing explains it any more that was not called for itself before; null else. */
  readonly unexplainedAt: MonotonicMillis | null;
}

interface Look {
  readonly alarms: Alarms;
  readonly voices: readonly Voice[];
  readonly minutesLeft: () => number;
  readonly now: MonotonicMillis;
}

const voiceOf = (voices: readonly Voice[], kind: AlarmKind): Voice | undefined =>
  voices.find(({ card }) => card.kind === kind);

/** A cause that shows itself later goes on with the people that were called for what it explains. */
const inheritedRung = ({ alarms, voices }: Look, alarm: Alarm): number =>
  Math.max(
    -1,
    ...followers(alarms, alarm)
      .map(({ card }) => voiceOf(voices, card.kind))
      .map((voice) => (voice?.phase === 'called' ? voice.rung - 1 : -1)),
  );

const raised = (look: Look, alarm: Alarm, isSpokenFor: boolean): Voice => ({
  card: alarm.card,
  raisedAt: alarm.raisedAt,
  phase: 'waiting',
  seenBy: null,
  rung: isSpokenFor ? -1 : inheritedRung(look, alarm),
  calledAt: null,
  dueAt: isSpokenFor ? null : look.now,
  unexplainedAt: null,
});

/** An alarm that nobody has acknowledged. */
const unanswered = (look: Look, alarm: Alarm, voice: Voice, isSpokenFor: boolean): Voice => {
  const { minutesLeft, now } = look;
  const same = { ...voice, card: alarm.card };
  if (isSpokenFor) return { ...same, dueAt: null, unexplainedAt: null };
  if (voice.phase === 'waiting') {
    // What was to be called at once stays due, though it is held back.
    if (voice.dueAt !== null && voice.unexplainedAt === null) return same;
    const unexplainedAt = voice.unexplainedAt ?? now;
    // By the time left as it is now, for the water that comes back meanwhile makes it more.
    return { ...same, unexplainedAt, dueAt: afterMinutes(unexplainedAt, unexplainedMinutes(minutesLeft())) };
  }
  if (!escalates(alarm.card, voice.rung)) return { ...same, dueAt: null };
  if (voice.dueAt !== null && voice.dueAt <= now) return same;
  return { ...same, dueAt: sooner(voice.dueAt, now, escalationMinutes(minutesLeft(), voice.rung)) };
};

const seen = (look: Look, alarm: Alarm, voice: Voice | undefined, isSpokenFor: boolean): Voice => {
  const { minutesLeft, now } = look;
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
  return { ...same, dueAt: sooner(planned, now, againMinutes(alarm.card, minutesLeft())) };
};

/** The voice of an alarm in the list, from the one that it had; null when it has none. */
const voiceNow = (look: Look, alarm: Alarm): Voice | null => {
  const before = voiceOf(look.voices, alarm.card.kind);
  const isSpokenFor = speaker(look.alarms, alarm) !== alarm;
  switch (alarm.state) {
    case 'active-unacknowledged': {
      const isNew = before?.raisedAt !== alarm.raisedAt || before.phase === 'seen' || before.phase === 'over';
      return isNew ? raised(look, alarm, isSpokenFor) : unanswered(look, alarm, before, isSpokenFor);
    }
    case 'active-acknowledged':
    case 'shelved':
      return seen(look, alarm, before, isSpokenFor);
    case 'returned-unacknowledged':
      return before === undefined ? null : over(before, look.now);
  }
};

/** Who was called hears that it is over; who was not has nothing to hear. */
const over = (voice: Voice, now: MonotonicMillis): Voice | null => {
  if (voice.phase === 'over') return voice;
  return voice.calledAt === null ? null : { ...voice, phase: 'over', dueAt: now };
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
export const calledNow = (voice: Voice, minutesLeft: () => number, now: MonotonicMillis): Voice | null => {
  if (voice.phase === 'over') return null;
  const rung = voice.rung + 1;
  const next = { ...voice, rung, calledAt: now };
  if (voice.phase === 'seen')
    return { ...next, dueAt: afterMinutes(now, againMinutes(voice.card, minutesLeft())) };
  const dueAt = escalates(voice.card, rung)
    ? afterMinutes(now, escalationMinutes(minutesLeft(), rung))
    : null;
  return { ...next, phase: 'called', dueAt, unexplainedAt: null };
};
