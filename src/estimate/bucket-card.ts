import type { Farm } from '../farm/farm.ts';
import { localClockInstant, localDayOn, type LocalDay } from '../time/local-day.ts';
import { factsOn } from './bench-facts.ts';
import { bucketRounds, type BucketRound } from './bucket-round.ts';
import { hotDayUptake, referenceDay } from './reference-day.ts';

/** A stretch of the day with one round for all of it, by the local clock. */
export interface CardHours {
  readonly name: string;
  readonly fromHour: number;
  readonly toHour: number;
  readonly rounds: readonly BucketRound[];
}

export interface BucketCard {
  readonly farm: Farm;
  readonly date: string;
  readonly hours: readonly CardHours[];
}

/** A person has no more than four rows to choose from, in the dark and in a hurry. */
const HOURS = [
  { name: 'morning', fromHour: 6, toHour: 10 },
  { name: 'heat', fromHour: 10, toHour: 18 },
  { name: 'evening', fromHour: 18, toHour: 22 },
  { name: 'night', fromHour: 22, toHour: 30 },
] as const;

const EVERY_MINUTES = 10;

/** The most that a plant may drink in these hours of the farm's hot day, mm/h. */
const mostWithin = (farm: Farm, day: LocalDay, fromHour: number, toHour: number): number => {
  const reference = referenceDay(farm, day.start);
  let most = 0;
  for (let minute = 60 * fromHour; minute < 60 * toHour; minute += EVERY_MINUTES) {
    most = Math.max(most, hotDayUptake(reference, localClockInstant(day, minute % (24 * 60))));
  }
  return most;
};

export const bucketCard = (farm: Farm, date: string): BucketCard => {
  const day = localDayOn(date, farm.place.timeZone);
  const facts = factsOn(farm, date);
  return {
    farm,
    date,
    hours: HOURS.map(({ name, fromHour, toHour }) => ({
      name,
      fromHour,
      toHour,
      rounds: bucketRounds(farm, facts, mostWithin(farm, day, fromHour, toHour)),
    })),
  };
};
