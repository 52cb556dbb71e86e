import { describe, expect, it } from 'vitest';
import { openWaterMillimetresPerHour } from '../../../src/physics/open-water.ts';

describe('water that an open wet surface gives to the air', () => {
  it('is 0.57 mm/h at 25 °C, 60 %, 500 W/m², 2 m/s, sea level: Penman with Shuttleworth 1993 eq. 4.2.30 by hand', () => {
    // Formula and constants from memory. Δ 0.1886, γ 0.0674 kPa/°C; Rn 0.92·1.8 MJ/h; D 1.267 kPa; 6.43·2.072/24 MJ/(h·kPa).
    const mm = openWaterMillimetresPerHour({
      airCelsius: 25,
      vapourKilopascals: 1.9,
      sunWattsPerSquareMetre: 500,
      windMetresPerSecond: 2,
      pressureKilopascals: 101.3,
    });
    const byHand = (0.408 * (0.1886 * 1.656 + 0.0674 * 0.5551 * 1.2678)) / (0.1886 + 0.0674);
    expect(mm).toBeCloseTo(byHand, 3);
  });

  it('is nothing in the dark in air that can take no more, and never below nothing', () => {
    const dark = { sunWattsPerSquareMetre: 0, windMetresPerSecond: 3, pressureKilopascals: 101.3 };
    expect(openWaterMillimetresPerHour({ ...dark, airCelsius: 20, vapourKilopascals: 2.4 })).toBe(0);
  });
});
