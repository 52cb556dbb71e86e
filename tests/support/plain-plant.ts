import type { BenchBuild, PlantBuild, TankBuild } from '../../sim/plant/build.ts';
import { CENTRAL, type Judgements } from '../../sim/plant/judgements.ts';
import { createPlant, restedState, type Plant, type Witness } from '../../sim/plant/plant.ts';
import type { Air } from '../../sim/weather/sky.ts';
import { fittedBranches } from '../../src/physics/pump-split.ts';

export const MINUTE = 60_000;
export const DAY_MINUTES = 24 * 60;
/** Midnight of an invented day; ages of crops count back from it. */
export const START = Date.UTC(2026, 6, 14);

/** A bench by its age, with the pump's flow into it while all benches run. */
export interface BenchFacts {
  readonly ageDays: number;
  readonly plants: number;
  readonly channelMetres: number;
  readonly litresPerMinute: number;
  readonly liftMetres: number;
  readonly leafSquareMetresMax: number;
  readonly startedInPlace: boolean;
  readonly plantsPerSquareMetre: number;
  readonly rootGramsMax: number;
  readonly halfGrownDays: number;
  readonly growthPerDay: number;
}

/** Butterhead in the model's central values: 300 plants on 72 m at 10 L/min. */
export const LETTUCE: BenchFacts = {
  ageDays: 40,
  plants: 300,
  channelMetres: 72,
  litresPerMinute: 10,
  liftMetres: 1.2,
  leafSquareMetresMax: 0.4,
  startedInPlace: false,
  plantsPerSquareMetre: 16,
  rootGramsMax: 40,
  halfGrownDays: 41,
  growthPerDay: 0.19,
};

const HEAD_METRES = 9;
const OPEN_LITRES_PER_MINUTE = 400;
/** A shed of dozens of benches has a pump that could give at least so much more than they take. */
const SPARE_SHARE = 1.25;

/** A pump of 9 m that gives each bench its flow, and the benches on it. */
export const plantBuild = (
  benches: readonly BenchFacts[],
  tank: Partial<TankBuild> = {},
  judgements: Partial<Judgements> = {},
): PlantBuild => {
  const asked = benches.reduce((sum, bench) => sum + bench.litresPerMinute, 0);
  const fit = fittedBranches({
    headMetresMax: HEAD_METRES,
    litresPerMinuteMax: Math.max(OPEN_LITRES_PER_MINUTE, SPARE_SHARE * asked),
    liftMetres: benches.map((bench) => bench.liftMetres),
    litresPerMinute: benches.map((bench) => bench.litresPerMinute),
  });
  if (fit.kind !== 'fitted') throw new Error(fit.kind);
  return {
    benches: benches.map((bench, place): BenchBuild => ({
      channelMetres: bench.channelMetres,
      liftMetres: bench.liftMetres,
      branchResistance: fit.branches[place]!.resistance,
      plantings: [
        {
          fromMillis: -Infinity,
          plants: bench.plants,
          plantsPerSquareMetre: bench.plantsPerSquareMetre,
          leafSquareMetresMax: bench.leafSquareMetresMax,
          rootGramsMax: bench.rootGramsMax,
          halfGrownDays: bench.halfGrownDays,
          growthPerDay: bench.growthPerDay,
          sownMillis: START - bench.ageDays * DAY_MINUTES * MINUTE,
          startedInPlace: bench.startedInPlace,
        },
      ],
    })),
    tank: {
      brimLitres: 100_000,
      dryLitres: 60,
      topUp: { kind: 'by-hand' },
      topUpMillisiemensPerCm: 0.3,
      ...tank,
    },
    pump: { headMetresMax: HEAD_METRES, curveCoefficient: fit.curveCoefficient },
    sunShare: 1,
    elevationMetres: 0,
    // Fresh water, as far as oxygen is asked; farm-plant.test has it salty.
    usualMillisiemensPerCm: 0,
    judgements: { ...CENTRAL, ...judgements },
  };
};

export const air = (airCelsius: number, vapourKilopascals: number, sunWattsPerSquareMetre: number): Air => ({
  airCelsius,
  vapourKilopascals,
  sunWattsPerSquareMetre,
  windMetresPerSecond: 1,
});

export interface Weather {
  readonly at: (epochMillis: number) => Air;
}

export const steadySky = (now: Air): Weather => ({ at: () => now });

export interface DayFacts {
  readonly minCelsius: number;
  readonly maxCelsius: number;
  readonly vapourKilopascals: number;
  readonly sunWattsMax: number;
}

/** A day that is coolest at 3 h and hottest at 15 h, with sun from 6 h to 18 h. */
export const daySky = (day: DayFacts): Weather => ({
  at: (epochMillis) => {
    const hour = (epochMillis - START) / MINUTE / 60;
    const swing = (1 - Math.cos((2 * Math.PI * (hour - 3)) / 24)) / 2;
    const sun = Math.max(0, -Math.cos((2 * Math.PI * hour) / 24));
    return air(
      day.minCelsius + (day.maxCelsius - day.minCelsius) * swing,
      day.vapourKilopascals,
      day.sunWattsMax * sun,
    );
  },
});

/** The model's trial: 34 °C, 900 W/m² at noon, vapour of about 60 % humidity over the day. */
export const HOT_DAY: DayFacts = {
  minCelsius: 20,
  maxCelsius: 34,
  vapourKilopascals: 2,
  sunWattsMax: 900,
};

/** A stretch of pumping, in minutes from the start. */
export interface Flood {
  readonly from: number;
  readonly minutes: number;
}

/** `count` floods of `minutes`, one every `everyMinutes`, the first after one rest. */
export const evenFloods = (count: number, everyMinutes: number, minutes: number): readonly Flood[] =>
  Array.from({ length: count }, (_, place) => ({ from: (place + 1) * everyMinutes - minutes, minutes }));

export const rested = (
  build: PlantBuild,
  sky: Weather,
  start: { tankLitres?: number; celsius?: number; millisiemensPerCm?: number } = {},
): Plant =>
  createPlant(
    build,
    sky,
    restedState(build, START, { tankLitres: 600, celsius: 20, millisiemensPerCm: 1.6, ...start }),
  );

/** Runs the floods in their order and then up to `untilMinutes`. */
export const flooded = (
  plant: Plant,
  floods: readonly Flood[],
  untilMinutes: number,
  witness?: Witness,
): void => {
  const moment = (minutes: number): number => START + Math.round(minutes * MINUTE);
  for (const { from, minutes } of floods) {
    plant.advance(moment(from), witness);
    plant.setPump(true);
    plant.advance(moment(from + minutes), witness);
    plant.setPump(false);
  }
  plant.advance(moment(untilMinutes), witness);
};
