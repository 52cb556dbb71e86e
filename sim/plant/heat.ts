import type { BenchToday } from './bench.ts';
import { afterDecay } from './decay.ts';

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
  const pull =
    inflowPerMinute * inflowCelsius +
    today.airExchangeLitresPerMinute * airCelsius +
    today.sunWarming * sunWattsPerSquareMetre;
  const warmed = litresMid + today.pipeLitres;
  const exchange = inflowPerMinute + today.airExchangeLitresPerMinute;
  return afterDecay(celsius, pull / warmed, exchange / warmed, minutes);
};
