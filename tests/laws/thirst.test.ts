import fc from 'fast-check';
import { describe, it } from 'vitest';
import { heldShares, type Plant } from '../../sim/plant/plant.ts';
import { between } from '../support/between.ts';
import { lowestThetas } from '../support/lowest-theta.ts';
import {
  anyBench,
  anyDay,
  anyFloods,
  anyJudgements,
  daySky,
  MINUTE,
  plantBuild,
  rested,
  START,
  type BenchFacts,
  type DayFacts,
  type Flood,
} from '../support/plant.ts';
import type { Judgements } from '../../sim/plant/judgements.ts';

interface Case {
  readonly bench: BenchFacts;
  readonly judgements: Judgements;
  readonly day: DayFacts;
}

const WILT = 0.2;
/** A failure at this hour, when the sun is up. */
const FROM = START + 9 * 60 * MINUTE;

const plantOf = ({ bench, judgements, day }: Case): Plant =>
  rested(plantBuild([bench], {}, judgements), daySky(day), { tankLitres: 20_000 });

/** Minutes from full to the wilt floor with the pump off, on a grid of one minute; 18 h when it holds. */
const minutesToDry = (given: Case): number => {
  const plant = plantOf(given);
  plant.advance(FROM);
  plant.state.benches[0]!.heldLitres = plant.today()[0]!.capacityLitres;
  for (let minutes = 1; minutes <= 18 * 60; minutes += 1) {
    plant.advance(FROM + minutes * MINUTE);
    if (heldShares(plant)[0]! <= WILT) return minutes;
  }
  return 18 * 60;
};

const lowestTheta = (given: Case, floods: readonly Flood[]): number =>
  lowestThetas(plantOf(given), floods)[0]!;

const more = between(0.01, 8);

/** Law 6 of the model: what makes a crop thirstier. */
const THIRSTIER: readonly (readonly [words: string, change: (given: Case, by: number) => Case])[] = [
  [
    'hotter by up to 8 °C with the same vapour in the air',
    (given, by) => ({ ...given, day: { ...given.day, maxCelsius: given.day.maxCelsius + by } }),
  ],
  [
    'drier by up to 0.3 kPa',
    (given, by) => ({
      ...given,
      day: { ...given.day, vapourKilopascals: given.day.vapourKilopascals - (0.3 * by) / 8 },
    }),
  ],
  [
    'sunnier by up to 240 W/m²',
    (given, by) => ({ ...given, day: { ...given.day, sunWattsMax: given.day.sunWattsMax + 30 * by } }),
  ],
  [
    'leafier by up to 0.2 m² a plant with the same roots',
    (given, by) => ({
      ...given,
      bench: { ...given.bench, leafSquareMetresMax: given.bench.leafSquareMetresMax + by / 40 },
    }),
  ],
];

describe.each(THIRSTIER)('%s', (_, change) => {
  const anyCase = fc.record({ bench: anyBench, judgements: anyJudgements, day: anyDay });

  it('a full bench is at its wilt floor no later, to the minute', () => {
    fc.assert(
      fc.property(anyCase, more, (given, by) => minutesToDry(change(given, by)) <= minutesToDry(given)),
      { numRuns: 40 },
    );
  });

  it('the lowest θ of a day of floods is no higher', () => {
    // Both runs have the same steps, so only rounding may differ.
    fc.assert(
      fc.property(
        anyCase,
        anyFloods,
        more,
        (given, floods, by) => lowestTheta(change(given, by), floods) <= lowestTheta(given, floods) + 1e-12,
      ),
      { numRuns: 100 },
    );
  });
});
