import { boundaryInstant } from '../../src/farm/day-boundaries.ts';
import type { DayPart } from '../../src/farm/farm.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { localDayOf } from '../../src/time/local-day.ts';
import type { RunRecord, Stretch } from './record.ts';
import { MINUTE } from './stretches.ts';

const DAY_MINUTES = 1440;

interface Span {
  readonly part: DayPart;
  readonly fromMillis: number;
  readonly untilMillis: number;
}

/** The day parts as they lie around a moment of the run, those of the day before and after too. */
const spansAround = ({ farm }: RunRecord, atMillis: number): readonly Span[] =>
  [-1, 0, 1].flatMap((days) => {
    const day = localDayOf(wallMillis(atMillis + days * DAY_MINUTES * MINUTE), farm.place.timeZone);
    return farm.dayPlan.map((part): Span => {
      const fromMillis = boundaryInstant(part.from, day, farm.place);
      const to = boundaryInstant(part.to, day, farm.place);
      return { part, fromMillis, untilMillis: to > fromMillis ? to : to + DAY_MINUTES * MINUTE };
    });
  });

const restMinutes = ({ part: { pace, floodMinutes }, fromMillis, untilMillis }: Span): number =>
  pace.kind === 'rest' ? pace.restMinutes : (untilMillis - fromMillis) / MINUTE / pace.floods - floodMinutes;

/** The longest rest that the day plan of the farm file has for any moment of a stretch, before it gets hotter or cooler, min. */
export const longestPlannedRest = (record: RunRecord, { fromMillis, untilMillis }: Stretch): number =>
  Math.max(
    ...[fromMillis, untilMillis].flatMap((atMillis) =>
      spansAround(record, atMillis)
        .filter((span) => span.fromMillis <= untilMillis && fromMillis <= span.untilMillis)
        .map(restMinutes),
    ),
  );
