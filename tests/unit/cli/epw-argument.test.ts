import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Console } from '../../../firmware-host/cli/console.ts';
import { EXIT } from '../../../firmware-host/cli/exit-code.ts';
import type { AcceptedFarm } from '../../../firmware-host/cli/farm-argument.ts';
import { weatherFor, type WeatherOptions } from '../../../firmware-host/cli/weather-argument.ts';
import { farmFromText } from '../../../firmware-host/farm-file/read.ts';
import type { WeatherSource } from '../../../firmware-host/simulated-shed.ts';
import { epwRow, epwText, madeHours } from '../../support/made-epw.ts';
import { expectRefused } from './refused.ts';
import { NO_TERMINAL } from '../../support/no-terminal.ts';

const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-test-'));
/** By its content an EPW file, whatever its name says. */
const epw = join(folder, 'hours.csv');
writeFileSync(epw, epwText(madeHours('2023-07-01', 31).map((hour) => epwRow(hour))));
const csv = join(folder, 'hours.epw');
writeFileSync(
  csv,
  [
    'when,t',
    ...Array.from({ length: 24 }, (_, hour) => `2026-07-15T${String(hour).padStart(2, '0')}:00,30`),
  ].join('\n'),
);

const farmWith = (weather: string, climate = true): AcceptedFarm => {
  const text = readFileSync('docs/examples/ribeira.yaml', 'utf8');
  const without = climate ? text : text.replace(/^climate:\n(?: .*\n)+/m, '');
  const read = farmFromText(`${without}${weather}`, 'farm.yaml');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read;
};
const asked = (farm: AcceptedFarm, options: WeatherOptions): Promise<WeatherSource> => {
  const console: Console = {
    ...NO_TERMINAL,
    out: () => {
      throw new Error('weather is no data');
    },
  };
  return weatherFor(farm, options, console);
};
const refusalOf = (farm: AcceptedFarm, options: WeatherOptions): Promise<unknown> =>
  asked(farm, options).catch((error: unknown) => error);

const plain = farmWith('');
const named = (more = ''): AcceptedFarm => farmWith(`\nweather:\n  file: ${epw}\n${more}`);
const COLUMNS = '  columns: { time: when, temperature: t }\n';

describe('an EPW file', () => {
  it('after --weather needs no columns, and is known by its content', async () => {
    const source = await asked(plain, { weather: epw });
    expect(source).toMatchObject({ kind: 'record', typicalYearOf: null });
    // 744 hours, and a row for the middle of each but the first.
    expect(source.kind === 'record' && source.rows.length).toBe(2 * 744 - 1);
  });

  it('in the farm file needs none either', async () => {
    expect(await asked(named(), {})).toEqual(await asked(plain, { weather: epw }));
  });

  it('is taken where the farm file names columns for a record of its own', async () => {
    const own = farmWith(`\nweather:\n  file: ${csv}\n${COLUMNS}  timeZone: Etc/UTC\n`);
    expect(await asked(own, { weather: epw })).toEqual(await asked(plain, { weather: epw }));
  });

  it.each([
    ['--columns', plain, { weather: epw, columns: 'time=when,temperature=t' }, 'columns'],
    ['columns of the farm file', named(COLUMNS), {}, 'columns'],
    ['timeZone of the farm file', named('  timeZone: Etc/UTC\n'), {}, 'timeZone'],
    ['degrees Fahrenheit', named('  temperatureUnit: fahrenheit\n'), {}, 'temperatureUnit'],
  ])('with %s is refused, since it says all that itself', async (_, farm, options, key) => {
    const refusal = await refusalOf(farm, options);
    expectRefused(refusal, [`line 1: found an EPW file, and ${key} told for it`], EXIT.badInput);
  });
});

describe('a CSV without columns', () => {
  it('named .epw is still a CSV, and asks for them with 2', async () => {
    expectRefused(await refusalOf(plain, { weather: csv }), [
      'no EPW file',
      '--columns time=…,temperature=…',
    ]);
  });
});

describe('drawn days', () => {
  it('carry the climate of the farm file and the seed', async () => {
    const { climate } = plain.farm;
    expect(await asked(plain, { drawnDays: true, seed: '7' })).toEqual({
      kind: 'drawn-days',
      climate,
      seed: 7,
    });
    expect(await asked(plain, { drawnDays: true })).toMatchObject({ seed: 1 });
  });

  it('are refused where the farm file has no climate', async () => {
    expectRefused(await refusalOf(farmWith('', false), { drawnDays: true }), ['--drawn-days', 'no climate']);
  });
});
