import type { Farm } from '../../src/farm/farm.ts';
import type { Outcome } from '../run/rehearse.ts';

/** Start of the flood without which a planted bench of this run lasts shortest; null where nothing started. */
export const worstStart = (farm: Farm, { benches }: Outcome): number | null => {
  const [worst] = benches
    .flatMap(({ timeLeft }, place) => ((farm.benches[place]?.plants ?? 0) > 0 ? [timeLeft] : []))
    .toSorted((a, b) => a.minutes - b.minutes);
  return worst === undefined || worst.minutes === 0 ? null : worst.failedAtMillis;
};
