import { minutesBetween, type MonotonicMillis } from '../time/instant.ts';
import { GRAVITY, type Card } from './card.ts';
import type { Voice } from './voice.ts';

/**
 * An alarm that comes again within this of its end is the same trouble, as of a plug that is loose: it goes on where it was
 * with the people that it had called, and its end is told once it has been away for as long. Judgement.
 */
export const WAVERS_MINUTES = 30;
/** With less than this share of the time that was left at its last call it is another trouble to whoever was told. */
const LEFT_SHARE_MIN = 1 / 2;

/** Whether what stands now goes on with a voice that was over, and is no graver than that had told. */
export const goesOn = (
  { card: before, endedAt, leftMinutes, phase }: Voice,
  card: Card,
  minutesLeft: () => number,
  now: MonotonicMillis,
): boolean =>
  phase === 'over' &&
  endedAt !== null &&
  minutesBetween(endedAt, now) < WAVERS_MINUTES &&
  GRAVITY[card.priority] <= GRAVITY[before.priority] &&
  (leftMinutes === null || minutesLeft() >= LEFT_SHARE_MIN * leftMinutes);

/** That it is over has been told: whoever heard that must hear of it anew. */
export const isOverTold = ({ dueAt, phase }: Voice): boolean => phase === 'over' && dueAt === null;

/** Who has seen an alarm that comes now for the next time; null where it is new, or nobody has. */
export const stillSeenBy = (
  voices: readonly Voice[],
  card: Card,
  minutesLeft: () => number,
  now: MonotonicMillis,
): string | null => {
  const voice = voices.find((one) => one.card.kind === card.kind);
  if (voice === undefined || voice.seenBy === null || isOverTold(voice)) return null;
  return goesOn(voice, card, minutesLeft, now) ? voice.seenBy : null;
};
