import fc from 'fast-check';
import {
  DOUBTS,
  JUDGEMENTS,
  type Doubt,
  type Judgement,
  type Judgements,
} from '../../sim/plant/judgements.ts';
import { between } from './between.ts';
import { DAY_MINUTES, type BenchFacts, type DayFacts, type Flood } from './plain-plant.ts';

/** Nothing of it draws by chance; bundled by itself for other engines. */
export * from './plain-plant.ts';

/** What an arbitrary draws. */
export type Drawn<Any> = Any extends fc.Arbitrary<infer Value> ? Value : never;

/** Anything within the ranges of what nobody has measured, each drawn by itself. */
export const anyJudgements: fc.Arbitrary<Judgements> = fc.record(
  Object.fromEntries(
    JUDGEMENTS.map((name) => {
      const { least, central, most, onlyThese }: Doubt = DOUBTS[name];
      return [name, onlyThese === true ? fc.constantFrom(least, central, most) : between(least, most)];
    }),
  ) as Record<Judgement, fc.Arbitrary<number>>,
);

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
    startedInPlace: fc.boolean(),
  })
  .map(({ plantsPerMetre, litresPerMinutePerMetre, leafAreaIndexMax, ...bench }) => ({
    ...bench,
    plants: Math.round(bench.channelMetres * plantsPerMetre),
    litresPerMinute: bench.channelMetres * litresPerMinutePerMetre,
    leafSquareMetresMax: leafAreaIndexMax / bench.plantsPerSquareMetre,
  }));

export const anyDay: fc.Arbitrary<DayFacts> = fc
  .record({
    minCelsius: between(2, 24),
    rise: between(1, 16),
    vapourKilopascals: between(0.4, 2.2),
    sunWattsMax: between(0, 1000),
  })
  .map(({ rise, ...day }) => ({ ...day, maxCelsius: day.minCelsius + rise }));

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

/** One to three benches, their judgements, and a day of weather and floods. */
export const anyShed = fc.record({
  benches: fc.array(anyBench, { minLength: 1, maxLength: 3 }),
  judgements: anyJudgements,
  day: anyDay,
  floods: anyFloods,
});
