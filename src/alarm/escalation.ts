import { afterMinutes, monotonicMillis, type MonotonicMillis } from '../time/instant.ts';
import type { Card, Priority } from './card.ts';
import { isOnWater } from './stakes.ts';

/** Whoever is called has this long, or a quarter of the time left, before the next person is (faults.md). */
export const ESCALATION_MINUTES_MAX = 10;
const ESCALATION_SHARE = 1 / 4;
/**
 * A call needs a minute to be made and answered at all. After three more people the rota has most likely gone round, and
 * a call each minute would only bury the next one; judgement.
 */
const ESCALATION_MINUTES_MIN = { quick: 1, slow: 5 } as const;
export const QUICK_RUNGS = 3;
/**
 * An acknowledged alarm on water speaks again at half of the time then left, though not more often than this: while it is not
 * of high priority the plants are watered, and whoever has seen it is to be reminded by day, not pressed. Judgement.
 */
const AGAIN_SHARE = 1 / 2;
export const AGAIN_MINUTES_MIN: Readonly<Record<Priority, number>> = {
  high: 5,
  medium: 8 * 60,
  low: 24 * 60,
};
/** Nor more seldom than once a day, however much time is left. */
export const AGAIN_MINUTES_MAX = 24 * 60;
/** Once every bench has most likely passed its wilt floor haste saves nothing any more; judgement. */
const LOST_MINUTES = 60;

/** How much time people have. */
export interface Pace {
  /** Worked out only when something is to be said. */
  readonly minutesLeft: () => number;
  /** Whether every bench has most likely passed its wilt floor. */
  readonly isLost: () => boolean;
}

const least = (minutes: number, { isLost, minutesLeft }: Pace): number =>
  minutes < LOST_MINUTES && minutesLeft() <= 0 && isLost() ? LOST_MINUTES : minutes;

/** An alarm that cannot hurt the crop today is carried to so many more people at once; then it is a reminder. */
const MEDIUM_RUNGS_MAX = 2;
/**
 * What was explained by another alarm and is no more may soon be over itself: water needs up to eight minutes to come
 * back, and a flood half an hour to be confirmed. That it still stands is told with the end of the other one; judgement.
 */
const UNEXPLAINED_MINUTES = { least: 10, most: 30 } as const;

/** From the call that went to `rung` on to the next person. */
export const escalationMinutes = (pace: Pace, rung: number): number => {
  const minutes = Math.min(ESCALATION_MINUTES_MAX, ESCALATION_SHARE * pace.minutesLeft());
  // Until the rota has most likely gone round everybody is called as soon as ever.
  if (rung < QUICK_RUNGS) return Math.max(ESCALATION_MINUTES_MIN.quick, minutes);
  return least(Math.max(ESCALATION_MINUTES_MIN.slow, minutes), pace);
};

export const againMinutes = ({ kind, priority }: Card, pace: Pace): number => {
  // How long the crop can wait says nothing of what is not about water.
  if (!isOnWater(kind)) return AGAIN_MINUTES_MAX;
  const share = AGAIN_SHARE * pace.minutesLeft();
  return least(Math.max(AGAIN_MINUTES_MIN[priority], Math.min(AGAIN_MINUTES_MAX, share)), pace);
};

export const unexplainedMinutes = (minutesLeft: number): number =>
  Math.max(UNEXPLAINED_MINUTES.least, Math.min(UNEXPLAINED_MINUTES.most, ESCALATION_SHARE * minutesLeft));

/** Whether an alarm that nobody acknowledges goes to a further person after `rung`. */
export const escalates = ({ priority }: Card, rung: number): boolean => {
  switch (priority) {
    case 'high':
      return true;
    case 'medium':
      return rung < MEDIUM_RUNGS_MAX;
    case 'low':
      return false;
  }
};

/** Whether it speaks again although somebody has seen it: what was forgotten would hide the next thing that breaks. */
export const speaksAgain = ({ kind, priority }: Card): boolean => isOnWater(kind) || priority !== 'low';

/** Whether nobody has answered it for so long that it only reminds. */
export const reminds = (card: Card, rung: number): boolean =>
  card.priority === 'medium' && !escalates(card, rung);

/** The sooner of what was planned and what the time left asks for now: less time left never means later. */
export const sooner = (
  planned: MonotonicMillis | null,
  now: MonotonicMillis,
  minutes: number,
): MonotonicMillis => {
  const due = afterMinutes(now, minutes);
  return planned === null ? due : monotonicMillis(Math.min(planned, due));
};
