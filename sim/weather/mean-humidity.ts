import { saturationVapourKilopascals } from '../../src/physics/vapour.ts';
import { assert } from '../../src/units/assertion.ts';

/** Each step halves the doubt; 40 of them leave less than a millionth of a millionth of the first. */
const HALVINGS = 40;

/**
 * The vapour pressure, kPa, that gives air passing through `airCelsius` (evenly spaced in time) the mean
 * relative humidity asked for. At moments that cannot hold so much vapour the air counts as saturated, so
 * that 100 % asked is 100 % at every moment. Humidity rises with vapour, hence halving finds the answer.
 * @throws BrokenAssertion when there is no temperature or the humidity is not within 0–100
 */
export const vapourForMeanHumidity = (airCelsius: readonly number[], humidityPercent: number): number => {
  assert(airCelsius.length > 0, 'a mean needs one temperature at least');
  assert(humidityPercent >= 0 && humidityPercent <= 100, `no mean humidity of ${humidityPercent} %`);
  const saturations = airCelsius.map((celsius) => saturationVapourKilopascals(celsius));
  const meanPercent = (vapour: number): number =>
    (100 * saturations.reduce((sum, saturation) => sum + Math.min(1, vapour / saturation), 0)) /
    saturations.length;
  let least = 0;
  let most = Math.max(...saturations);
  for (let step = 0; step < HALVINGS; step += 1) {
    const middle = (least + most) / 2;
    if (meanPercent(middle) < humidityPercent) least = middle;
    else most = middle;
  }
  return most;
};
