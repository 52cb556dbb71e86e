import type { BenchToday } from './bench.ts';
import { afterDecay } from './decay.ts';
import type { WaterStep } from './water.ts';

export interface SaltStep {
  salts: number;
  returned: number;
  takenUp: number;
}

export const noSaltStep = (): SaltStep => ({ salts: 0, returned: 0, takenUp: 0 });

/** Keeps a bench that has run out of water from dividing by nothing. */
const LEAST_LITRES = 1e-6;

/**
 * Equation 7 for one bench: salts come with the flood, leave with the drain, and are taken up as
 * E·cu·EC/(Ke + EC). Water leaves to the air without them, so still water grows stronger. Written into `step` and given back.
 */
export const saltStep = (
  salts: number,
  today: Pick<BenchToday, 'saltUptake' | 'saltHalfStrength'>,
  before: { readonly litres: number },
  water: Readonly<WaterStep>,
  drunkLitres: number,
  inflowSaltsPerMinute: number,
  minutes: number,
  step: SaltStep = noSaltStep(),
): SaltStep => {
  const litresMid = Math.max(LEAST_LITRES, (before.litres + water.drainableLitres + water.heldLitres) / 2);
  const strength = salts / Math.max(LEAST_LITRES, before.litres);
  const drain = water.drainedLitres / minutes / litresMid;
  const uptake =
    ((drunkLitres / minutes) * today.saltUptake) / (litresMid * (today.saltHalfStrength + strength));
  const end = afterDecay(salts, inflowSaltsPerMinute, drain + uptake, minutes);
  const left = Math.max(0, salts + inflowSaltsPerMinute * minutes - end);
  const returned = drain + uptake === 0 ? 0 : (left * drain) / (drain + uptake);
  step.salts = end;
  step.returned = returned;
  step.takenUp = left - returned;
  return step;
};
