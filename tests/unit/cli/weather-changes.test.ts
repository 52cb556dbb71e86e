import { describe, expect, it } from 'vitest';
import {
  weatherChanges,
  withHeatWave,
  type WeatherChangeOptions,
} from '../../../firmware-host/cli/weather-changes.ts';
import { skyForSpan, UNCHANGED, type WeatherSource } from '../../../firmware-host/simulated-shed.ts';
import { localDayOn } from '../../../src/time/local-day.ts';
import { exampleFarm } from '../../support/farm.ts';
import { expectRefusal } from './refused.ts';

const day = localDayOn('2026-07-15', 'Europe/Lisbon');
const midnight = (date: string): number => Date.parse(`${date}T00:00:00+01:00`);
const HOT_DAY: WeatherSource = { kind: 'hot-day' };

const saysOf = (options: WeatherChangeOptions, source: WeatherSource = HOT_DAY): string => {
  const found = skyForSpan(exampleFarm, source, day, weatherChanges(options, day, 1));
  if (!found.ok) throw new Error(found.reason);
  return found.says;
};

describe('what is done to the weather about 15 July', () => {
  it('is nothing where nothing is asked', () => {
    expect(weatherChanges({}, day, 1)).toBe(UNCHANGED);
    expect(saysOf({})).toMatch(/^a hot day, 21 to 36 °C, 45 % humidity, clear sky$/);
  });

  it('is a heat wave of five days of which it is the third, 5 °C warmer unless told', () => {
    expect(weatherChanges({ heatWave: '5' }, day, 1).spell).toEqual({
      kind: 'heat wave',
      days: 5,
      celsius: 5,
      fromMillis: midnight('2026-07-13'),
      untilMillis: midnight('2026-07-18'),
    });
    for (const heatWave of ['2:+7.5', '2:7.5'])
      expect(weatherChanges({ heatWave }, day, 1).spell).toMatchObject({
        celsius: 7.5,
        fromMillis: midnight('2026-07-15'),
        untilMillis: midnight('2026-07-17'),
      });
  });

  it.each([
    ['5', 5, '2026-07-15', '2026-07-20'],
    ['7', 5, '2026-07-14', '2026-07-21'],
    ['1', 5, '2026-07-17', '2026-07-18'],
  ])(
    'of %s days over %d that are rehearsed lies in their middle: from %s until %s',
    (heatWave, days, from, until) => {
      expect(weatherChanges({ heatWave }, day, days).spell).toMatchObject({
        fromMillis: midnight(from),
        untilMillis: midnight(until),
      });
    },
  );

  it('of a scenario that brings its own heat wave takes no other spell, and comes to 20 °C at most', () => {
    const span = { start: day.start, end: day.end };
    const of = (options: WeatherChangeOptions): unknown =>
      withHeatWave(weatherChanges(options, day, 1), 1, 5, span);
    expectRefusal(() => of({ coldSpell: '3' }), ['a cold spell asked for as well', 'a heat wave of its own']);
    expectRefusal(() => of({ hotter: '16' }), ['21 °C together with the heat wave']);
    expect(of({ hotter: '15' })).toMatchObject({ hotterCelsius: 15, spell: { celsius: 5 } });
  });

  it('is a cold spell, colder with or without its sign', () => {
    for (const coldSpell of ['1:-8', '1:8'])
      expect(weatherChanges({ coldSpell }, day, 1).spell).toMatchObject({ kind: 'cold spell', celsius: -8 });
  });

  it.each([
    [{ heatWave: '0' }, ['--heat-wave', '"0"', 'from 1 to 30']],
    [{ heatWave: '31' }, ['"31"']],
    [{ heatWave: '5:' }, ['"5:"']],
    [{ heatWave: '5:-3' }, ['"5:-3"', '5:+6']],
    [{ heatWave: '5:+16' }, ['"5:+16"', 'up to 15 °C']],
    [{ heatWave: 'five' }, ['"five"']],
    [{ coldSpell: '5:+3' }, ['--cold-spell', '5:-6']],
    [{ cloudy: '0' }, ['--cloudy', 'from 0.05 to 1']],
    [{ cloudy: '30' }, ['--cloudy']],
    [{ hotter: '12', heatWave: '3:+9' }, ['21 °C together with the heat wave', 'up to 20 °C']],
  ] as const)('is refused for %j', (options, says) => {
    expectRefusal(() => weatherChanges(options, day, 1), says);
  });
});

describe('a record that is too short', () => {
  const HOUR = 3_600_000;
  const record = (from: string, to: string): WeatherSource => {
    const [first, last] = [from, to].map((text) => Date.parse(`${text}+01:00`));
    const count = ((last ?? 0) - (first ?? 0)) / HOUR + 1;
    const rows = Array.from({ length: count }, (_, hour) => ({
      epochMillis: (first ?? 0) + hour * HOUR,
      airCelsius: 20,
    }));
    return { kind: 'record', rows, typicalYearOf: null };
  };
  const lookedAt = (from: string, to: string): ReturnType<typeof skyForSpan> =>
    skyForSpan(exampleFarm, record(from, to), day, UNCHANGED);

  it('is told the whole stretch that is needed, and with that stretch it does', () => {
    const short = lookedAt('2026-07-14T00:00', '2026-07-15T23:00');
    const needed =
      /needed is weather from (.+) (.+) to (.+) (.+) \(local time\), or of these days of another/;
    const [, ...found] = needed.exec(short.ok ? '' : short.reason) ?? [];
    expect(found).toEqual(['2026-07-13', '12:00', '2026-07-18', '12:00']);
    expect(lookedAt('2026-07-13T12:00', '2026-07-18T12:00').ok).toBe(true);
    expect(lookedAt('2026-07-13T13:00', '2026-07-18T12:00').ok).toBe(false);
    expect(lookedAt('2026-07-13T12:00', '2026-07-18T11:00').ok).toBe(false);
  });
});

describe('what a rehearsal says of its weather', () => {
  it('names every change, and what the day comes to', () => {
    expect(saysOf({ heatWave: '3:+6', hotter: '1', cloudy: '0.8' })).toMatch(
      /^a hot day, 21 to 36 °C, 45 % humidity, at most 80 % of the clear sun, a heat wave of 3 days, \+6 °C, 1 °C hotter; \d\d\.\d to \d\d\.\d °C on the day$/,
    );
  });

  it('is cooler where less than nothing hotter was asked for', () => {
    expect(saysOf({ hotter: '-3' })).toContain('clear sky, 3 °C cooler; 18.0 to 33.0 °C on the day');
  });

  it('is 16.0 to 31.0 °C in a cold spell of 5 °C on a hot day of 21 to 36 °C', () => {
    expect(saysOf({ coldSpell: '1' })).toContain('a cold spell of 1 day, -5 °C; 16.0 to 31.0 °C on the day');
  });

  it('is the seed of drawn days, and the same for the same seed', () => {
    const monthly = Array.from({ length: 12 }, () => ({ minCelsius: 15, maxCelsius: 28 }));
    const climate = { monthly, spreadCelsius: 3, site: 'inland' } as const;
    const source = (seed: number): WeatherSource => ({ kind: 'drawn-days', climate, seed });
    expect(saysOf({}, source(7))).toMatch(/^days drawn from the climate of the farm file \(seed 7\); /);
    expect(saysOf({}, source(7))).toBe(saysOf({}, source(7)));
    expect(saysOf({}, source(7)).split(';')[1]).not.toBe(saysOf({}, source(8)).split(';')[1]);
  });
});
