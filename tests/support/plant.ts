import fc from 'fast-check';
import type { BenchBuild, PlantBuild, TankBuild } from '../../sim/plant/build.ts';
import { CENTRAL, type Judgements } from '../../sim/plant/judgements.ts';
import { createPlant, restedState, type Plant, type Witness } from '../../sim/plant/plant.ts';
import type { Air } from '../../sim/weather/sky.ts';
import { fittedBranches } from '../../src/physics/pump-split.ts';

export const MINUTE = 60_000;
export const DAY_MINUTES = 24 * 60;
/** Midnight of an invented day; ages of crops count back from it. */
export const START = Date.UTC(2026, 6, 14);

/** What an arbitrary draws. */
export type Drawn<Any> = Any extends fc.Arbitrary<infer Value> ? Value : never;

const double = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

/** The ranges that the model gives for what nobody has measured, for 300 plants on 72 m of channel. */
export const anyJudgements: fc.Arbitrary<Judgements> = fc.record({
  flowFactor: double(0.9, 1.1),
  drainCoefficient: double(0.02, 0.1),
  wettingLitres: double(2, 10),
  refillPerMinute: double(0.05, 0.3),
  capacityFactor: double(0.75, 1.25),
  stressTheta: double(0.4, 0.7),
  radiationShare: double(0.2, 0.6),
  deficitWatts: double(10, 30),
  airExchangeLitresPerMinute: double(2, 6),
});

/** A bench by its age, with the pump's flow into it while all benches run. */
export interface BenchFacts {
  readonly ageDays: number;
  readonly plants: number;
  readonly channelMetres: number;
  readonly litresPerMinute: number;
  readonly liftMetres: number;
  readonly leafSquareMetresMax: number;
}

/** Butterhead in the model's central values: 300 plants on 72 m at 10 L/min. */
export const LETTUCE: BenchFacts = {
  ageDays: 40,
  plants: 300,
  channelMetres: 72,
  litresPerMinute: 10,
  liftMetres: 1.2,
  leafSquareMetresMax: 0.4,
};

/** From a tenth to four times the usual bench, the flow 6–15 L/min for each 72 m. */
export const anyBench: fc.Arbitrary<BenchFacts> = fc
  .record({
    ageDays: double(0, 60),
    size: double(0.1, 4),
    perMetre: double(6 / 72, 15 / 72),
    liftMetres: double(0.8, 1.6),
  })
  .map(({ ageDays, size, perMetre, liftMetres }) => ({
    ...LETTUCE,
    ageDays,
    plants: Math.round(300 * size),
    channelMetres: 72 * size,
    litresPerMinute: 72 * size * perMetre,
    liftMetres,
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
      plantsPerSquareMetre: 16,
      leafSquareMetresMax: bench.leafSquareMetresMax,
      rootGramsMax: 40,
      halfGrownDays: 41,
      growthPerDay: 0.19,
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
    minCelsius: double(2, 24),
    rise: double(1, 16),
    vapourKilopascals: double(0.4, 2.2),
    sunWattsMax: double(0, 1000),
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
