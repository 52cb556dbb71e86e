import { exp } from '../../src/physics/portable-math.ts';
import type { BenchToday } from './bench.ts';

/**
 * Equation 4 for one step: T' = [q(Tr − T) + u(Ta − T) + α·G]/(x + v + Vp), the water taken at the middle of
 * the step, where the equation is linear and its end is exact.
 */
export const benchCelsiusAfter = (
  celsius: number,
  today: BenchToday,
  litresMid: number,
  inflowPerMinute: number,
  inflowCelsius: number,
  airCelsius: number,
  sunWattsPerSquareMetre: number,
  minutes: number,
): number => {
  const exchange = inflowPerMinute + today.airExchangeLitresPerMinute;
  const pull =
    inflowPerMinute * inflowCelsius +
    today.airExchangeLitresPerMinute * airCelsius +
    today.sunWarming * sunWattsPerSquareMetre;
  const settled = pull / exchange;
  return settled + (celsius - settled) * afterRate(exchange / (litresMid + today.pipeLitres), minutes);
};

/** e^(−rate·minutes) */
const afterRate = (rate: number, minutes: number): number => exp(-rate * minutes);
