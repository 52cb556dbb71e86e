import { describe, expect, it } from 'vitest';
import { shiftedSky } from '../../../sim/weather/shift.ts';
import { skyThrough } from '../../../sim/weather/line.ts';
import { BrokenAssertion } from '../../../src/units/assertion.ts';

const HOUR = 3_600_000;
const air = { vapourKilopascals: 2, sunWattsPerSquareMetre: 700, windMetresPerSecond: 1.5 };
const sky = skyThrough([
  { epochMillis: 0, airCelsius: 20, ...air },
  { epochMillis: HOUR, airCelsius: 30, ...air },
]);

describe('a shifted sky', () => {
  it('is 5 °C warmer with the same vapour, sun, wind and span', () => {
    const wave = shiftedSky(sky, { celsius: 5 });
    expect(wave.at(HOUR)).toEqual({ airCelsius: 35, ...air });
    expect([wave.start, wave.end]).toEqual([0, HOUR]);
  });

  it('when cooled by 10 °C gives up what the air cannot hold: 1.228 kPa at 10 °C', () => {
    // FAO-56, annex 2, table 2.3: saturation at 10 °C is 1.228 kPa.
    expect(shiftedSky(sky, { celsius: -10 }).at(0).vapourKilopascals).toBeCloseTo(1.228, 3);
  });

  it('keeps the bounds of the sky it came from, and refuses 21 °C', () => {
    expect(() => shiftedSky(sky, { celsius: 5 }).at(HOUR + 1)).toThrow(BrokenAssertion);
    expect(() => shiftedSky(sky, { celsius: 21 })).toThrow(BrokenAssertion);
  });
});
