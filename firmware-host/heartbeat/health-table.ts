import { secondsBetween, type MonotonicMillis } from '../../src/time/instant.ts';

/** The parts of the host that must answer before the watchdog is fed. */
export const PARTS = ['scheduler', 'link', 'journal', 'herald'] as const;
export type Part = (typeof PARTS)[number];

/**
 * Seconds within which each must answer. To answer means that the part itself still turns, whatever it meets: a board that is
 * gone, a disk that is full and a mail server that hangs are told as alarms, and a new start would mend none of them.
 */
export const ALLOWED_SECONDS: Readonly<Record<Part, number>> = {
  // It looks once a second.
  scheduler: 10,
  // Its timers go once a second, also while no board is there.
  link: 15,
  // One write to a slow card may take some seconds, and it answers after it.
  journal: 45,
  // Each attempt ends by its own time limit; between two it answers.
  herald: 45,
};

/** When each part last answered; one that is not in it is not fitted, and is not waited for. */
export type Answers = Readonly<Partial<Record<Part, MonotonicMillis>>>;

/** From now on the part is waited for; it has its whole time for the first answer. */
export const answered = (answers: Answers, part: Part, now: MonotonicMillis): Answers => ({
  ...answers,
  [part]: now,
});

export interface Hung {
  readonly part: Part;
  readonly seconds: number;
}

/** The parts that have not answered for longer than they may, worst first. */
export const hungParts = (answers: Answers, now: MonotonicMillis): readonly Hung[] =>
  PARTS.flatMap((part) => {
    const at = answers[part];
    const seconds = at === undefined ? 0 : secondsBetween(at, now);
    return seconds > ALLOWED_SECONDS[part] ? [{ part, seconds }] : [];
  }).sort((one, other) => other.seconds - one.seconds);
