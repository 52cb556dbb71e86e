import type { FarmProblem } from './problem.ts';
import type { ReadableBench, ReadableFarm } from './readable.ts';
import { valueAt } from './schema-walk.ts';

/** A date that something in the list must lie after. */
interface Before {
  readonly date: string;
  readonly is: string;
}

/** What the first change of a bench must come after: its own sowing, if plants stand on it. */
const sowingOf = ({ sown, plants }: ReadableBench): Before | null =>
  sown === undefined || plants === 0 ? null : { date: sown, is: 'the sowing of what stands there first' };

type Path = readonly (string | number)[];

const OF_PLANTS = {
  plants: 'the number of plants that come, or 0',
  crop: 'the name of a crop',
  sown: 'the date of their sowing',
} as const;

/** Plants that are only half told would stand there unseen, or not at all. */
const halfTold = (raw: unknown, path: Path): readonly FarmProblem[] => {
  const written = (key: string): unknown => valueAt(raw, [...path, key]);
  const isAlone = [...Object.keys(OF_PLANTS), 'startedInPlace'].every((key) => written(key) === undefined);
  if (isAlone || written('plants') === 0) return [];
  return Object.entries(OF_PLANTS).flatMap(([key, allowed]): readonly FarmProblem[] =>
    written(key) === undefined
      ? [
          {
            path: [...path, key],
            found: 'nothing',
            allowed,
            problem: 'This key is missing.',
            advice: 'Write the day alone where the bench is cleared and stands empty.',
          },
        ]
      : [],
  );
};

const nextProblemsOf = (bench: ReadableBench, place: number, raw: unknown): readonly FarmProblem[] => {
  const problems: FarmProblem[] = [];
  let before = sowingOf(bench);
  bench.next.forEach(({ on, sown }, entry) => {
    const path = ['benches', place, 'next', entry];
    problems.push(...halfTold(raw, path));
    if (on === undefined) return;
    if (before !== null && on <= before.date) {
      problems.push({
        path: [...path, 'on'],
        found: on,
        allowed: `a date after ${before.date}, ${before.is}`,
        problem: 'What comes next on a bench stands in the order of time.',
      });
    } else before = { date: on, is: 'the change before this one' };
    if (sown !== undefined && sown > on) {
      problems.push({
        path: [...path, 'sown'],
        found: sown,
        allowed: `a date up to ${on}, the day on which it comes onto the bench`,
        problem: 'Plants cannot come onto a bench before they are sown.',
        advice: 'If they are sown in the channels on that day, write that day and startedInPlace: true.',
      });
    }
  });
  return problems;
};

/** Whether what comes next on each bench can come so. */
export const nextProblems = ({ benches }: ReadableFarm, raw: unknown): readonly FarmProblem[] =>
  benches.flatMap((bench, place) => nextProblemsOf(bench, place, raw));
