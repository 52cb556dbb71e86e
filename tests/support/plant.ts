import fc from 'fast-check';
import type { BenchBuild, PlantBuild, TankBuild } from '../../sim/plant/build.ts';
import { CENTRAL, DOUBTS, type Judgement, type Judgements } from '../../sim/plant/judgements.ts';
import { createPlant, restedState, type Plant, type Witness } from '../../sim/plant/plant.ts';
import type { Air } from '../../sim/weather/sky.ts';
import { fittedBranches } from '../../src/physics/pump-split.ts';
import { between } from './between.ts';

export const MINUTE = 60_000;
export const DAY_MINUTES = 24 * 60;
/** Midnight of an invented day; ages of crops count back from it. */
export const START = Date.UTC(2026, 6, 14);

/** What an arbitrary draws. */
export type Drawn<Any> = Any extends fc.Arbitrary<infer Value> ? Value : never;

/** Anything within the ranges of what nobody has measured, each drawn by itself. */
export const anyJudgements: fc.Arbitrary<Judgements> = fc.record(
  Object.fromEntries(
    Object.entries(DOUBTS).map(([name, { least, most }]) => [name, between(least, most)]),
  ) as Record<Judgement, fc.Arbitrary<number>>,
);

/** A bench by its age, with the pump's flow into it while all benches run. */
export interface BenchFacts {
  readonly ageDays: number;
  readonly plants: number;
  readonly channelMetres: number;
  readonly litresPerMinute: number;
  readonly liftMetres: number;
  readonly leafSquareMetresMax: number;
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
  plantsPerSquareMetre: 16,
  rootGramsMax: 40,
  halfGrownDays: 41,
  growthPerDay: 0.19,
};

/**
 * From a tenth to four times the usual channels, the flow 6–15 L/min for each 72 m; any leaf crop from seedling to past
 * its harvest, half to twice as many plants to the metre, and 2 to 8 m² of leaf over each m² when full-grown.
 */
export const anyBench: fc.Arbitrary<BenchFacts> = fc
  .record({
    ageDays: between(0, 60),
    channelMetres: between(7.2, 288),
    plantsPerMetre: between(2, 8),
    litresPerMinutePerMetre: between(6 / 72, 15 / 72),
    liftMetres: between(0.8, 1.6),
    leafAreaIndexMax: between(2, 8),
    plantsPerSquareMetre: between(10, 30),
    rootGramsMax: between(15, 60),
    halfGrownDays: between(25, 45),
    growthPerDay: between(0.12, 0.25),
  })
  .map(({ plantsPerMetre, litresPerMinutePerMetre, leafAreaIndexMax, ...bench }) => ({
    ...bench,
    plants: Math.round(bench.channelMetres * plantsPerMetre),
    litresPerMinute: bench.channelMetres * litresPerMinutePerMetre,
    leafSquareMetresMax: leafAreaIndexMax / bench.plantsPerSquareMetre,
  }));

const HEAD_METRES = 9;
const OPEN_LITRES_PER_MINUTE = 400;

/** A pump of 9 m that gives each bench its flow, and the benches on it. */
export const plantBuild = (
  benches: readonly BenchFacts[],
  tank: Partial<TankBuild> = {},
  judgements: Partial<Judgements> = {},
): PlantBuild => {
  const fit = fittedBranches({
    headMetresMax: HEAD_METRES,
    litresPerMinuteMax: OPEN_LITRES_PER_MINUTE,
    liftMetres: benches.map((bench) => bench.liftMetres),
    litresPerMinute: benches.map((bench) => bench.litresPerMinute),
  });
  if (fit.kind !== 'fitted') throw new Error(fit.kind);
  return {
    benches: benches.map((bench, place): BenchBuild => ({
      channelMetres: bench.channelMetres,
      plants: bench.plants,
      plantsPerSquareMetre: bench.plantsPerSquareMetre,
      leafSquareMetresMax: bench.leafSquareMetresMax,
      rootGramsMax: bench.rootGramsMax,
      halfGrownDays: bench.halfGrownDays,
      growthPerDay: bench.growthPerDay,
      sownMillis: START - bench.ageDays * DAY_MINUTES * MINUTE,
      liftMetres: bench.liftMetres,
      branchResistance: fit.branches[place]!.resistance,
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

export const anyDay: fc.Arbitrary<DayFacts> = fc
  .record({
    minCelsius: between(2, 24),
    rise: between(1, 16),
    vapourKilopascals: between(0.4, 2.2),
    sunWattsMax: between(0, 1000),
  })
  .map(({ rise, ...day }) => ({ ...day, maxCelsius: day.minCelsius + rise }));

/** A stretch of pumping, in minutes from the start. */
export interface Flood {
  readonly from: number;
  readonly minutes: number;
}

/** Floods of 1–35 min with rests of 3–150 min, filling a day; ends on whole seconds. */
export const anyFloods: fc.Arbitrary<readonly Flood[]> = fc
  .array(fc.tuple(fc.integer({ min: 180, max: 9000 }), fc.integer({ min: 60, max: 2100 })), {
    minLength: 1,
    maxLength: 40,
    size: 'max',
  })
  .map((pairs) => {
    let at = 0;
    const floods: Flood[] = [];
    for (const [rest, flood] of pairs) {
      if (at + (rest + flood) / 60 > DAY_MINUTES) break;
      floods.push({ from: at + rest / 60, minutes: flood / 60 });
      at += (rest + flood) / 60;
    }
    return floods;
  });

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
