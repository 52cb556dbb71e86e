import type { Bench, Farm, Standing } from '../farm/farm.ts';
import { standingOn, standingsOf } from '../farm/standing.ts';
import { basalCropCoefficient } from '../physics/crop-coefficient.ts';
import { grownShare } from '../physics/growth.ts';
import { heldMillilitresMax } from '../physics/holding.ts';
import { dateBefore, daysBetweenDates } from '../time/local-day.ts';

/** What the controller believes of a bench for one day; changes with the crop's age. */
export interface BenchFacts {
  readonly name: string;
  readonly planted: boolean;
  readonly ageDays: number;
  readonly capacityLitres: number;
  /** Litres an hour that the bench drinks for each millimetre an hour of reference uptake. */
  readonly litresPerMillimetre: number;
}

const benchFactsAt = (name: string, { traits, plants }: Standing, ageDays: number): BenchFacts => {
  const grown = grownShare(ageDays, traits.halfGrownDays, traits.growthPerDay);
  const leafAreaIndex = traits.leafSquareMetresMax * grown * traits.plantsPerSquareMetre;
  const groundSquareMetres = plants / traits.plantsPerSquareMetre;
  return {
    name,
    planted: plants > 0,
    ageDays,
    capacityLitres: (Math.max(1, plants) * heldMillilitresMax(traits.rootGramsMax * grown)) / 1000,
    litresPerMillimetre: groundSquareMetres * basalCropCoefficient(leafAreaIndex),
  };
};

const driesFaster = (one: BenchFacts, other: BenchFacts): boolean =>
  one.litresPerMillimetre * other.capacityLitres > other.litresPerMillimetre * one.capacityLitres;

const fastestOf = (all: readonly BenchFacts[]): BenchFacts =>
  all.reduce((fastest, facts) => (driesFaster(facts, fastest) ? facts : fastest));

/**
 * A bench on a local date. On the day of a change nobody knows the hour: what dries faster counts, of the plants that go
 * and those that come.
 */
const benchFactsOn = (bench: Bench, date: string): BenchFacts =>
  fastestOf(
    [standingOn(bench, date), standingOn(bench, dateBefore(date))].map((standing) =>
      benchFactsAt(bench.name, standing, Math.max(0, daysBetweenDates(standing.sown, date))),
    ),
  );

/** One entry a bench, in the order of the farm file. `date` is a local calendar day. */
export const factsOn = (farm: Farm, date: string): readonly BenchFacts[] =>
  farm.benches.map((bench) => benchFactsOn(bench, date));

/** Up to harvest, the age that dries fastest: as the canopy closes, while the roots still hold little. */
const fastestDrying = (bench: Bench): BenchFacts =>
  fastestOf(
    standingsOf(bench).flatMap((standing) =>
      Array.from({ length: standing.traits.harvestDays + 1 }, (_, ageDays) =>
        benchFactsAt(bench.name, standing, ageDays),
      ),
    ),
  );

/** Facts for when no date is known: every bench with the crop, of all in the file, and at the age that dry fastest. */
export const factsWithoutDate = (farm: Farm): readonly BenchFacts[] => farm.benches.map(fastestDrying);
