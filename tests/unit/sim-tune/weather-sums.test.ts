import { describe, expect, it } from 'vitest';
import { openWaterMillimetresPerHour } from '../../../src/physics/open-water.ts';
import { leafOpenShare } from '../../../src/physics/uptake.ts';
import { pressureKilopascals, vapourDeficitKilopascals } from '../../../src/physics/vapour.ts';
import { CENTRAL } from '../../../sim/plant/judgements.ts';
import { weatherSums } from '../../../sim/tune/weather-sums.ts';
import { wallMillis } from '../../../src/time/instant.ts';
import { daySky, HOT_DAY, MINUTE, START, steadySky, air } from '../../support/plant.ts';

const PLACE = { sunShare: 0.9, elevationMetres: 180 };
const MINUTES = 1440;
const sky = { ...daySky(HOT_DAY), start: wallMillis(START), end: wallMillis(START + MINUTES * MINUTE) };
const sums = weatherSums(sky, { startMillis: START, minutes: MINUTES }, PLACE)(CENTRAL);

const sunAt = (atMillis: number): number => sky.at(atMillis).sunWattsPerSquareMetre * PLACE.sunShare;
const deficitAt = (atMillis: number): number => {
  const { airCelsius, vapourKilopascals } = sky.at(atMillis);
  return vapourDeficitKilopascals(airCelsius, vapourKilopascals) * leafOpenShare(CENTRAL, sunAt(atMillis));
};
const openAt = (atMillis: number): number =>
  openWaterMillimetresPerHour({
    ...sky.at(atMillis),
    sunWattsPerSquareMetre: sunAt(atMillis),
    pressureKilopascals: pressureKilopascals(PLACE.elevationMetres),
  }) / 60;

/** Twenty looks a minute, in the middle of each twentieth. */
const plainly = (of: (atMillis: number) => number, from: number, until: number): number => {
  let sum = 0;
  for (let look = from * 20; look < until * 20; look += 1)
    sum += of(START + ((look + 0.5) / 20) * MINUTE) / 20;
  return sum;
};

describe('the sums of a hot day', () => {
  it.each([
    [0, 1440],
    [300, 420],
    [719, 721],
    [1080, 1260],
  ])(
    'from minute %d to %d are those of a sum twenty times as fine, to 1e-3 of the highest of a minute',
    (from, until) => {
      for (const [name, of] of [
        ['sun', sunAt],
        ['deficit', deficitAt],
        ['openWater', openAt],
      ] as const) {
        const most = Math.max(...Array.from({ length: 1440 }, (_, minute) => of(START + minute * MINUTE)));
        const found = sums[name][until]! - sums[name][from]!;
        // A minute in one look misses its bend alone.
        expect(Math.abs(found - plainly(of, from, until))).toBeLessThan(1e-3 * most * (until - from));
      }
    },
  );

  it('begin at 0 and never fall', () => {
    for (const sum of [sums.sun, sums.deficit, sums.openWater]) {
      expect(sum[0]).toBe(0);
      expect(sum.every((value, minute) => minute === 0 || value >= sum[minute - 1]!)).toBe(true);
    }
  });

  it('of a steady sky of 500 W/m² behind a net that lets nine tenths through are 450 a minute', () => {
    const steady = {
      ...steadySky(air(25, 2, 500)),
      start: wallMillis(START),
      end: wallMillis(START + 60 * MINUTE),
    };
    const { sun } = weatherSums(steady, { startMillis: START, minutes: 60 }, PLACE)(CENTRAL);
    expect(sun).toHaveLength(61);
    expect(sun[60]! / 60).toBeCloseTo(450, 9);
  });

  it('of the deficit follow how the leaves of each draw open: half as open in the dark, half the sum', () => {
    const dark = {
      ...steadySky(air(25, 2, 0)),
      start: wallMillis(START),
      end: wallMillis(START + 60 * MINUTE),
    };
    const under = weatherSums(dark, { startMillis: START, minutes: 60 }, PLACE);
    const open = under({ openShareInDark: 0.4, halfOpenWatts: 50 }).deficit[60]!;
    expect(open).toBeCloseTo(60 * 0.4 * vapourDeficitKilopascals(25, 2), 9);
    expect(under({ openShareInDark: 0.2, halfOpenWatts: 50 }).deficit[60]!).toBeCloseTo(open / 2, 9);
  });
});
