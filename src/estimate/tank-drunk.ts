import type { BenchFacts } from './bench-facts.ts';

/**
 * What plants may truly drink, against the likely uptake. This doubt is wider than that of the held water, which an early
 * flood covers at no cost: here each litre too few calls somebody for a leak that is none. In forty simulated months of
 * sheds with drawn plants, one slope of the tank in a hundred was beyond 2.2 times the likely uptake and the steepest under
 * a high sun 2.6 times, with large leaves that open wide in a dry wind. Judgement, no source.
 */
const UPTAKE_SHARE = 2.5;
/** What they drink in the dark besides. Judgement, no source. */
const DARK_MILLIMETRES_PER_HOUR = 0.045;

/** Litres an hour that the benches may drink at most at an uptake of so many millimetres an hour. */
export const drunkLitresPerHourMost = (benches: readonly BenchFacts[], millimetresPerHour: number): number =>
  benches
    .filter(({ planted }) => planted)
    .reduce(
      (sum, { litresPerMillimetre }) =>
        sum + (UPTAKE_SHARE * millimetresPerHour + DARK_MILLIMETRES_PER_HOUR) * litresPerMillimetre,
      0,
    );
