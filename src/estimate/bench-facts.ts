import type { Bench, Farm } from '../farm/farm.ts';
import { basalCropCoefficient } from '../physics/crop-coefficient.ts';
import { grownShare } from '../physics/growth.ts';
import { heldMillilitresMax } from '../physics/holding.ts';
import { daysBetweenDates } from '../time/local-day.ts';

/** What the controller believes of a bench for one day; changes with the crop's age. */
export interface BenchFacts {
  readonly name: string;
  readonly planted: boolean;
  readonly ageDays: number;
  readonly capacityLitres: number;
  /** Litres an hour that the bench drinks for each millimetre an hour of reference uptake. */
  readonly litresPerMillimetre: number;
}

const benchFactsAt = (bench: Bench, ageDays: number): BenchFacts => {
  const { traits } = bench;
  const grown = grownShare(ageDays, traits.halfGrownDays, traits.growthPerDay);
  const leafAreaIndex = traits.leafSquareMetresMax * grown * traits.plantsPerSquareMetre;
  const groundSquareMetres = bench.plants / traits.plantsPerSquareMetre;
  return {
    name: bench.name,
    planted: bench.plants > 0,
    ageDays,
    capacityLitres: (Math.max(1, bench.plants) * heldMillilitresMax(traits.rootGramsMax * grown)) / 1000,
    litresPerMillimetre: groundSquareMetres * basalCropCoefficient(leafAreaIndex),
  };
};

/** One entry a bench, in the order of the farm file. `date` is a local calendar day. */
export const factsOn = (farm: Farm, date: string): readonly BenchFacts[] =>
  farm.benches.map((bench) => benchFactsAt(bench, Math.max(0, daysBetweenDates(bench.sown, date))));

const driesFaster = (one: BenchFacts, other: BenchFacts): boolean =>
  one.litresPerMillimetre * other.capacityLitres > other.litresPerMillimetre * one.capacityLitres;

/** Up to harvest, the age that dries fastest: as the canopy closes, while the roots still hold little. */
const fastestDrying = (bench: Bench): BenchFacts => {
  let fastest = benchFactsAt(bench, 0);
  for (let ageDays = 1; ageDays <= bench.traits.harvestDays; ageDays += 1) {
    const facts = benchFactsAt(bench, ageDays);
    if (driesFaster(facts, fastest)) fastest = facts;
  }
  return fastest;
};

/** Facts for when no date is known: every bench at the age at which it dries fastest. */
export const factsWithoutDate = (farm: Farm): readonly BenchFacts[] => farm.benches.map(fastestDrying);
