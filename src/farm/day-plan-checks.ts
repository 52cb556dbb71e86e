import { DateTime } from 'luxon';
import { wallMillis } from '../time/instant.ts';
import { localClockText } from '../time/local-day.ts';
import { itemAt } from '../units/assertion.ts';
import { boundaryWords, sameBoundary } from './boundary-words.ts';
import { DAYS_OF_YEAR, planYear, type PlanYear, type ZonedPlace } from './plan-year.ts';
import type { FarmProblem } from './problem.ts';
import type { ReadableFarm } from './readable.ts';
import type { Boundary } from './schema.ts';

/** A day part whose ends can be read. */
interface Stretch {
  readonly name: string;
  readonly from: Boundary;
  readonly to: Boundary;
}

const MINUTES_PER_DAY = 1440;

const chainAllowed = 'each part begins where the one before ends, and the first where the last ends';

/** Gap or overlap, with its length where both ends are clock times. */
const breakWords = (before: Stretch, after: Stretch): string => {
  if (before.to.kind === 'sun' || after.from.kind === 'sun') {
    return `“${before.name}” and “${after.name}” do not meet at the same boundary.`;
  }
  const ahead = (after.from.minuteOfDay - before.to.minuteOfDay + MINUTES_PER_DAY) % MINUTES_PER_DAY;
  return ahead <= MINUTES_PER_DAY / 2
    ? `Between “${before.name}” and “${after.name}” there is a gap of ${ahead} min.`
    : `“${before.name}” and “${after.name}” overlap by ${MINUTES_PER_DAY - ahead} min.`;
};

const chainProblems = (stretches: readonly (Stretch | null)[]): readonly FarmProblem[] =>
  stretches.flatMap((after, place): readonly FarmProblem[] => {
    const before = itemAt(stretches, (place + stretches.length - 1) % stretches.length);
    // An end that cannot be read is told already; the others are compared all the same.
    if (before === null || after === null || sameBoundary(before.to, after.from)) return [];
    const [until, from] = [boundaryWords(before.to), boundaryWords(after.from)];
    return [
      {
        // A break between the last part and the first is put at the end of the last: there the file is being written.
        path: place === 0 ? ['dayPlan', stretches.length - 1, 'to'] : ['dayPlan', place, 'from'],
        found: `“${before.name}” ends at ${until}, “${after.name}” begins at ${from}`,
        allowed: chainAllowed,
        problem: breakWords(before, after),
        advice: `Write the same time or sun time at both, for example ${place === 0 ? from : until}.`,
      },
    ];
  });

const emptyProblems = (stretches: readonly Stretch[]): readonly FarmProblem[] =>
  stretches.length === 1
    ? []
    : stretches.flatMap(({ name, from, to }, place) =>
        sameBoundary(from, to)
          ? [
              {
                path: ['dayPlan', place, 'to'],
                found: `“${name}” begins and ends at ${boundaryWords(to)}`,
                allowed:
                  'another boundary than the one it begins at; only a single part may cover the whole day',
                problem: 'This part leaves no time for the others.',
              },
            ]
          : [],
      );

/** A sun time with what the clock shows on the day in question. */
const endWords = (boundary: Boundary, instant: number, timeZone: string): string => {
  const words = boundaryWords(boundary);
  return boundary.kind === 'clock' ? words : `${words} (${localClockText(wallMillis(instant), timeZone)})`;
};

/** `6 December`; the year says nothing here. */
const dateWords = (date: string): string =>
  DateTime.fromISO(date, { zone: 'utc', locale: 'en' }).toFormat('d MMMM');

const turnProblems = (
  stretches: readonly Stretch[],
  { turn }: PlanYear,
  { timeZone }: ZonedPlace,
): readonly FarmProblem[] => {
  if (turn === null) return [];
  const part = itemAt(stretches, turn.place);
  const next = itemAt(stretches, (turn.place + 1) % stretches.length);
  const from = endWords(part.from, turn.start, timeZone);
  const to = endWords(part.to, turn.end, timeZone);
  const span = `“${part.name}” from ${from} to ${to}`;
  const common = {
    path: ['dayPlan', turn.place, 'to'],
    allowed: 'parts that follow one another within one day, on every day of the year',
  };
  return turn.daysOfYear === DAYS_OF_YEAR
    ? [
        {
          ...common,
          found: span,
          problem: `The parts go more than once round the day: “${next.name}” begins before “${part.name}” has ended.`,
        },
      ]
    : [
        {
          ...common,
          found: `${span} on ${dateWords(turn.date)}`,
          problem: `As the sun times move, this part would end before it begins on ${turn.daysOfYear} days of the year.`,
          advice: 'Choose another offset, or a clock time for one of the two ends.',
        },
      ];
};

const fitProblems = (file: ReadableFarm, year: PlanYear): readonly FarmProblem[] =>
  file.dayPlan.flatMap(({ floods, floodMinutes }, place): readonly FarmProblem[] => {
    if (floods === undefined || floodMinutes === undefined) return [];
    const longest = Math.floor(itemAt(year.longestMinutes, place));
    if (floods * floodMinutes < longest) return [];
    return [
      {
        path: ['dayPlan', place, 'floods'],
        found: `${floods} floods of ${floodMinutes} min, ${floods * floodMinutes} min together`,
        allowed: `less than the ${longest} min that this part lasts at most`,
        problem: 'The floods do not fit into this part on any day of the year.',
      },
    ];
  });

const stretchesOf = ({ dayPlan }: ReadableFarm): readonly (Stretch | null)[] =>
  dayPlan.map(({ part, from, to }, place) =>
    from === undefined || to === undefined ? null : { name: part ?? `part ${place + 1}`, from, to },
  );

/** Whether the parts cover the day, one after the other, on every day of the year. */
export const dayPlanProblems = (file: ReadableFarm): readonly FarmProblem[] => {
  const all = stretchesOf(file);
  const stretches = all.filter((stretch) => stretch !== null);
  const chain = chainProblems(all);
  if (stretches.length === 0 || stretches.length < all.length) return chain;
  const broken = [...chain, ...emptyProblems(stretches)];
  if (broken.length > 0 || file.place === undefined) return broken;
  const year = planYear(
    stretches.map((stretch) => stretch.from),
    file.place,
  );
  const turned = turnProblems(stretches, year, file.place);
  return turned.length > 0 ? turned : fitProblems(file, year);
};
