import { afterMinutes, afterSeconds, minutesBetween, type MonotonicMillis } from '../time/instant.ts';
import type { AlarmKind } from './card.ts';

/**
 * Seconds for which a condition must be away before its alarm returns. None where the condition is a verdict, an order
 * or a latch of its own (a whole flood, the end of a hold, a float that kept still over a flood, a person's word): that
 * has been thought over already. Else long enough for a loose contact or a sensor at its limit; judgement.
 */
const AWAY_SECONDS: Readonly<Record<AlarmKind, number>> = {
  'missed-flood': 0,
  'weak-flow': 0,
  'return-lower': 0,
  'tank-low': 0,
  'float-suspect': 0,
  'tank-falls': 0,
  'tank-full': 0,
  'strength-off': 0,
  'hold-is-long': 0,
  'clock-stepped': 0,
  'safe-mode': 0,
  'float-unmoved': 0,
  // The return of the mains is told within a minute, as their loss is.
  'mains-lost': 20,
  'board-silent': 30,
  'pump-runs-on': 30,
  'drying-out': 60,
  // Read at last: the hold and the alarms from before are told first.
  'past-unread': 60,
  'flow-sensor-stuck': 60,
  'flow-sensor-silent': 300,
  'no-good-temperature': 300,
  'not-recording': 300,
  'relay-chatters': 300,
  'channel-dead': 300,
  'clock-drift': 600,
  'line-bad': 300,
  'host-hot': 300,
  // A tank that runs over holds back for one flood and runs over again: one alarm, not one a flood.
  'water-on-floor': 3600,
  'host-large': 300,
  'host-battery': 300,
};

/** More turns of a condition than this within a minute are chatter (faults.md, row 58). */
export const CHATTER_TURNS = 3;
const CHATTER_WINDOW_SECONDS = 60;
/** A condition that chattered must be quiet for this long before its alarm may return. */
export const CHATTER_QUIET_MINUTES = 10;

/** How the condition of one alarm has come and gone. */
export interface Course {
  /** Since when the condition has been away; null while it stands. */
  readonly awaySince: MonotonicMillis | null;
  /** The last moments at which it turned, at most one more than are chatter. */
  readonly turns: readonly MonotonicMillis[];
  /** When it last chattered; null when it never did. */
  readonly chatteredAt: MonotonicMillis | null;
}

export const beginning = (now: MonotonicMillis): Course => ({
  awaySince: null,
  turns: [now],
  chatteredAt: null,
});

/** The course after one more look. */
export const courseAfter = (course: Course, stands: boolean, now: MonotonicMillis): Course => {
  if ((course.awaySince === null) === stands) return course;
  const turns = [...course.turns, now].slice(-(CHATTER_TURNS + 1));
  const [first] = turns;
  const chatters =
    turns.length > CHATTER_TURNS && first !== undefined && now <= afterSeconds(first, CHATTER_WINDOW_SECONDS);
  return {
    awaySince: stands ? null : now,
    turns,
    chatteredAt: chatters ? now : course.chatteredAt,
  };
};

/** Whether the condition comes and goes so fast that its alarm is held up as one. */
export const chatters = ({ chatteredAt }: Course, now: MonotonicMillis): boolean =>
  chatteredAt !== null && minutesBetween(chatteredAt, now) < CHATTER_QUIET_MINUTES;

/** From when on the alarm may return if nothing changes; null while its condition stands. */
export const goneAt = (kind: AlarmKind, { awaySince, chatteredAt }: Course): MonotonicMillis | null => {
  if (awaySince === null) return null;
  const away = afterSeconds(awaySince, AWAY_SECONDS[kind]);
  if (chatteredAt === null) return away;
  const quiet = afterMinutes(chatteredAt, CHATTER_QUIET_MINUTES);
  return quiet > away ? quiet : away;
};
