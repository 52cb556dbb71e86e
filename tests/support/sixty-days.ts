import type { Plant } from '../../sim/plant/plant.ts';
import type { PlantState } from '../../sim/plant/state.ts';
import { DAY_MINUTES, MINUTE, plantBuild, rested, START } from './plain-plant.ts';
import { floodDays, minuteSky, standardBenches } from './standard-load.ts';

/**
 * The standard load with everything that moves water or salts: a valve that tops up into a tank which overflows on
 * drain-back, a leak, stronger top-up, a branch that clogs, a weak pump, floods missed, crops that go and come, and cups
 * that evaporate. Nothing here asks the engine for more than + − × ÷ and √, so it runs bundled on any of them.
 */

export const SIXTY = 60;
const DAY_MILLIS = DAY_MINUTES * MINUTE;

/** A new crop of seedlings came onto the bench in the middle of this day, at 9:17. */
const REPLANTED_ON_DAY = [44, 21, 9, 33] as const;
const REPLANTED_AT_MINUTES = 557;

const brokenOn = (day: number, plant: Plant): void => {
  const { faults } = plant.state;
  faults.leakLitresPerMinute = day >= 20 && day < 23 ? 0.2 : 0;
  faults.topUpSaltier = day >= 24 && day < 26 ? 0.5 : 0;
  faults.branchShares[1] = day >= 30 && day < 33 ? 0.4 : 1;
  faults.pumpShare = day >= 36 && day < 38 ? 0.6 : 1;
  plant.faultsChanged();
};

/** A flood at noon of every seventh day. */
const missed = (day: number, flood: number): boolean => day % 7 === 3 && flood === 10;

const sixtyDayPlant = (): Plant => {
  const build = plantBuild(standardBenches(4), {
    brimLitres: 600,
    topUp: { kind: 'float-valve', closesAtLitres: 460, litresPerMinute: 6 },
  });
  const benches = build.benches.map((bench, place) => {
    const fromMillis = START + REPLANTED_ON_DAY[place]! * DAY_MILLIS + REPLANTED_AT_MINUTES * MINUTE;
    const seedlings = bench.plantings.map((planting) => ({
      ...planting,
      fromMillis,
      sownMillis: fromMillis - place * DAY_MILLIS,
      startedInPlace: place === 2,
    }));
    return { ...bench, plantings: [...bench.plantings, ...seedlings] };
  });
  return rested({ ...build, benches }, minuteSky());
};

/** Runs the days and shows every step. */
export const sixtyDays = (days: number, witness: (state: PlantState) => void): Plant => {
  const plant = sixtyDayPlant();
  let day = -1;
  witness(plant.state);
  floodDays(plant, days, missed, (state) => {
    witness(state);
    const today = Math.floor((state.atMillis - START) / DAY_MILLIS);
    if (today === day) return;
    day = today;
    brokenOn(day, plant);
  });
  return plant;
};

const numbersOf = ({
  benches,
  tank,
  atMillis,
  minutesSinceEvent,
  returnLitresPerMinute,
}: PlantState): number[] => [
  atMillis,
  minutesSinceEvent,
  returnLitresPerMinute,
  ...Object.values(tank).map(Number),
  ...benches.flatMap((bench) => Object.values(bench).map(Number)),
];

/** All states at the first step of every hour. */
export const statesOf = (days: number): Float64Array => {
  const numbers: number[] = [];
  let hour = -1;
  const end = sixtyDays(days, (state) => {
    const now = Math.floor((state.atMillis - START) / (60 * MINUTE));
    if (now !== hour) numbers.push(...numbersOf(state));
    hour = now;
  });
  numbers.push(...numbersOf(end.state));
  return Float64Array.from(numbers);
};
