import { INJECTORS } from '../faults/injectors.ts';
import type { CampaignTask } from './task.ts';

/** Every so manyth seed is run twice: one in twenty. */
const TWICE_EVERY = 20;
const MONTH_DAYS = 30;

export const swarmTasks = (from: number, seeds: number, days: number): readonly CampaignTask[] =>
  Array.from({ length: seeds }, (_, place) => ({
    seed: from + place,
    days,
    twice: (from + place) % TWICE_EVERY === 0,
  }));

/** Over the bytes of the line, which takes a hundred times as long: every so manyth of them twice. */
const BYTES_TWICE_EVERY = 25;
export const byteTasks = (from: number, seeds: number, days: number): readonly CampaignTask[] =>
  swarmTasks(from, seeds, days).map((task) => ({
    ...task,
    bytes: true,
    twice: task.seed % BYTES_TWICE_EVERY === 0,
  }));

/** Every two injectors together once, with others as the seed draws them. */
export const pairTasks = (from: number, days: number): readonly CampaignTask[] =>
  INJECTORS.flatMap((one, place) => INJECTORS.slice(place + 1).map((other) => [one, other] as const)).map(
    (pair, place) => ({ seed: from + place, days, pair, twice: false }),
  );

/** Months in which nothing is broken, with the noise of the sensors. */
export const monthTasks = (from: number, months: number): readonly CampaignTask[] =>
  Array.from({ length: months }, (_, place) => ({
    seed: from + place,
    days: MONTH_DAYS,
    faultFree: true,
    twice: false,
  }));
