import type { Farm } from '../../src/farm/farm.ts';
import { hasPlants } from '../../src/farm/standing.ts';
import { itemAt } from '../../src/units/assertion.ts';
import type { Outcome } from '../run/rehearse.ts';

/** The flood that is missed the most, and by which bench. */
export interface WorstStart {
  /** When it starts. */
  readonly atMillis: number;
  /** Place of the bench that lasts shortest without it. */
  readonly bench: number;
}

/** Of the planted bench of this run that lasts shortest without a flood; null where nothing started. */
export const worstStart = (farm: Farm, { benches }: Outcome): WorstStart | null => {
  const [worst] = benches
    .flatMap(({ timeLeft }, bench) =>
      hasPlants(itemAt(farm.benches, bench)) ? [{ ...timeLeft, bench }] : [],
    )
    .toSorted((a, b) => a.minutes - b.minutes);
  return worst === undefined || worst.minutes === 0
    ? null
    : { atMillis: worst.failedAtMillis, bench: worst.bench };
};
