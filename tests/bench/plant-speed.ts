import type { Plant } from '../../sim/plant/plant.ts';
import { MINUTE, plantBuild, rested, START } from '../support/plain-plant.ts';
import { floodDays, minuteSky, standardBenches } from '../support/standard-load.ts';
import { accurately, errorsOf, type Errors } from './held-errors.ts';
import {
  restedVector,
  shedOfEquations,
  solved,
  solvedByMinute,
  stretches,
  TANK_LITRES,
  TOP_UP_STRENGTH,
  VALVE,
  type HeldAt,
} from './odex-load.ts';

/**
 * Measures the plant and prints what it found; `plant.bench.ts` bundles it as the product is bundled and runs it in a bare
 * Node with `--expose-gc`. Times are processor time of this process, so that others on the machine count little.
 */

const THRESHOLDS = [0.5, 0.2];
/** The flood of 13:19 on the first day. */
const missed = (day: number, flood: number): boolean => day === 0 && flood === 11;
const ROUNDS = 10;
const PLANT_DAYS = 60;
const ODEX_DAYS = 4;
const TOLERANCES = [1e-3, 3e-4, 1e-4, 1e-6];

const SKY = minuteSky();

const standardPlant = (benches: number): Plant => {
  const size = benches / 4;
  return rested(
    plantBuild(standardBenches(benches), {
      topUp: { ...VALVE, kind: 'float-valve', closesAtLitres: VALVE.closesAtLitres * size },
      topUpMillisiemensPerCm: TOP_UP_STRENGTH,
    }),
    SKY,
    { tankLitres: TANK_LITRES * size },
  );
};

const spent = (run: () => void): number => {
  const before = process.cpuUsage();
  run();
  return process.cpuUsage(before).user / 1e6;
};

/** Processor seconds of each, the fastest of some rounds in turn; the first round warms the engine up. */
const fastest = (rounds: number, ...runs: readonly (() => void)[]): readonly number[] => {
  const best = runs.map(() => Infinity);
  for (let round = 0; round <= rounds; round += 1) {
    runs.forEach((run, place) => {
      const seconds = spent(run);
      if (round > 0) best[place] = Math.min(best[place]!, seconds);
    });
  }
  return best;
};

const plantDay = (): readonly HeldAt[] => {
  const told: HeldAt[] = [];
  floodDays(standardPlant(4), 1, missed, ({ atMillis, benches }) => {
    told.push({
      minutes: (atMillis - START) / MINUTE,
      heldLitres: benches.map(({ heldLitres }) => heldLitres),
    });
  });
  return told;
};

const print = (line: string): void => {
  process.stdout.write(`${line}\n`);
};
const whole = (value: number): string => Math.round(value).toLocaleString('en');
const words = ({ held, crossingSeconds, crossings }: Errors): string =>
  `largest error of held water ${held.toExponential(1)}, of ${String(crossings)} crossings ${crossingSeconds.toFixed(2)} s`;

const beside = (): void => {
  const shed = shedOfEquations(SKY);
  const oxygen = standardPlant(4).state.benches[0]!.oxygenMilligramsPerLitre;
  const start = restedVector(shed, oxygen);
  const oneDay = stretches(1, missed);
  const errors = (told: readonly HeldAt[]): string =>
    words(errorsOf(shed, told, accurately(shed, oneDay, start, told), THRESHOLDS));

  const plan = stretches(ODEX_DAYS, missed);
  const [plantSeconds, ...odexSeconds] = fastest(
    ROUNDS,
    () => {
      floodDays(standardPlant(4), PLANT_DAYS, missed);
    },
    ...TOLERANCES.map((tolerance) => () => {
      solved(shed, plan, start, tolerance);
    }),
  );
  const daysASecond = PLANT_DAYS / plantSeconds!;
  print(`4 benches: ${whole(daysASecond)} simulated days/s of a core; ${errors(plantDay())}`);
  TOLERANCES.forEach((tolerance, place) => {
    const odexDaysASecond = ODEX_DAYS / odexSeconds[place]!;
    const times = (daysASecond / odexDaysASecond).toFixed(1);
    const found = errors(solvedByMinute(shed, oneDay, start, tolerance));
    print(
      `odex at ${tolerance.toExponential()}: ${whole(odexDaysASecond)} days/s, the plant ${times} times odex; ${found}`,
    );
  });
};

const heapKilobytes = (): number => {
  globalThis.gc?.();
  return process.memoryUsage().heapUsed / 1024;
};

/** Speed and heap over size and length. */
const overSizes = (): void => {
  for (const benches of [1, 4, 16, 64]) {
    for (const days of [15, 60, 240]) {
      const before = heapKilobytes();
      let plant = standardPlant(benches);
      const [seconds] = fastest(1, () => {
        plant = standardPlant(benches);
        floodDays(plant, days);
      });
      const grown = heapKilobytes() - before;
      if (plant.state.tank.litres <= plant.build.tank.dryLitres) throw new Error('the tank ran dry');
      print(
        `${String(benches)} benches, ${String(days)} days: ${whole((benches * days) / seconds!)} days×benches/s, heap ${grown >= 0 ? '+' : ''}${grown.toFixed(0)} kB`,
      );
    }
  }
};

beside();
overSizes();
