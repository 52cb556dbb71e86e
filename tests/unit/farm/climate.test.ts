import { describe, expect, it } from 'vitest';
import { parseFarm } from '../../../src/farm/parse.ts';
import { exampleFile } from './example.ts';

const month = { minCelsius: 12, maxCelsius: 22, humidityPercent: 70 };
const parsed = (climate: object): ReturnType<typeof parseFarm> =>
  parseFarm({ ...(exampleFile() as object), climate });
const twelve = Array.from({ length: 12 }, () => month);

describe('the climate of a farm file', () => {
  it('is twelve months and a site; a day strays by 3 °C unless told', () => {
    const read = parsed({ monthly: twelve, site: 'coast' });
    expect(read.ok && read.farm.climate).toEqual({ monthly: twelve, site: 'coast', spreadCelsius: 3 });
  });

  it('of a month whose nights are as warm as its afternoons is refused with its place', () => {
    const monthly = twelve.with(6, { ...month, minCelsius: 22 });
    expect(parsed({ monthly, site: 'inland' })).toMatchObject({
      ok: false,
      problems: [
        {
          path: ['climate', 'monthly', 6, 'minCelsius'],
          found: '22',
          allowed: 'below 22, which is climate.monthly.6.maxCelsius',
        },
      ],
    });
  });

  it('of eleven months, or without a site, is refused', () => {
    expect(parsed({ monthly: twelve.slice(1), site: 'inland' })).toMatchObject({
      ok: false,
      problems: [{ path: ['climate', 'monthly'] }],
    });
    expect(parsed({ monthly: twelve })).toMatchObject({
      ok: false,
      problems: [{ path: ['climate', 'site'] }],
    });
  });

  it('is not needed, nor are the columns of a weather file', () => {
    const read = parseFarm({ ...(exampleFile() as object), weather: { file: 'site.epw' } });
    expect(read.ok && [read.farm.climate, read.farm.weather?.columns]).toEqual([undefined, undefined]);
  });
});
