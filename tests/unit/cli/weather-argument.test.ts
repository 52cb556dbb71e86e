import { readFileSync, writeFileSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Console } from '../../../firmware-host/cli/console.ts';
import { EXIT } from '../../../firmware-host/cli/exit-code.ts';
import type { AcceptedFarm } from '../../../firmware-host/cli/farm-argument.ts';
import { weatherFor, type WeatherOptions } from '../../../firmware-host/cli/weather-argument.ts';
import { farmFromText } from '../../../firmware-host/farm-file/read.ts';
import type { WeatherSource } from '../../../firmware-host/simulated-shed.ts';
import { expectRefused } from './refused.ts';
import { NO_TERMINAL } from '../../support/no-terminal.ts';

const RIBEIRA = 'docs/examples/ribeira.yaml';
const SEATTLE = 'docs/examples/seattle.yaml';
const COLUMNS = 'time=when,temperature=t';

const acceptedFrom = (file: string, change: (text: string) => string = (text) => text): AcceptedFarm => {
  const read = farmFromText(change(readFileSync(file, 'utf8')), file);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read;
};

const csv = join(mkdtempSync(join(tmpdir(), 'rillkeeper-test-')), 'hours.csv');
const hours = Array.from({ length: 48 }, (_, hour) =>
  new Date(Date.UTC(2026, 6, 15, hour)).toISOString().slice(0, 16),
);
writeFileSync(csv, ['when,t', ...hours.map((hour) => `${hour},30`)].join('\n'));

const asked = async (
  farm: AcceptedFarm,
  options: WeatherOptions,
): Promise<{ source: WeatherSource; talk: string }> => {
  const talk: string[] = [];
  const console: Console = {
    ...NO_TERMINAL,
    out: () => {
      throw new Error('weather is no data');
    },
    talk: (text) => talk.push(text),
  };
  return { source: await weatherFor(farm, options, console), talk: talk.join('\n') };
};

const firstRowOf = ({ source }: { source: WeatherSource }): { epochMillis: number; airCelsius: number } => {
  if (source.kind !== 'record') throw new Error('no record');
  return source.rows[0]!;
};

describe('the weather that is rehearsed on', () => {
  it('is the hot day where neither the farm file nor an option names a record', async () => {
    expect((await asked(acceptedFrom(RIBEIRA), {})).source).toEqual({ kind: 'hot-day' });
  });

  it('is the record of the farm file, found from where the farm file lies', async () => {
    const { source, talk } = await asked(acceptedFrom(SEATTLE), {});
    expect(source.kind).toBe('record');
    expect(talk).toContain('all rows lack humidity');
  });

  it('is the hot day all the same with --hot-day', async () => {
    expect((await asked(acceptedFrom(SEATTLE), { hotDay: true })).source).toEqual({ kind: 'hot-day' });
  });

  it('is the file of --weather before that of the farm file', async () => {
    expect(
      firstRowOf(await asked(acceptedFrom(SEATTLE), { weather: csv, columns: COLUMNS })).airCelsius,
    ).toBe(30);
  });

  it('with --columns of its own is read in °C and in the time of the farm, whatever the farm file says of its record', async () => {
    const other = acceptedFrom(SEATTLE, (text) =>
      text.replace('temperatureUnit: celsius', 'temperatureUnit: fahrenheit'),
    );
    const row = firstRowOf(await asked(other, { weather: csv, columns: COLUMNS }));
    expect(row.airCelsius).toBe(30);
    // 00:00 of 15 July in Los Angeles, seven hours behind UTC in summer; the farm file's own record is eight behind.
    expect(row.epochMillis).toBe(Date.parse('2026-07-15T07:00Z'));
  });

  it('with the columns of the farm file is read in its unit: 30 °F are −1.1 °C', async () => {
    const own = acceptedFrom(SEATTLE, (text) =>
      text
        .replace('temperatureUnit: celsius', 'temperatureUnit: fahrenheit')
        .replace('time: date', 'time: when')
        .replace('temperature: temperature', 'temperature: t')
        .replace('    wind: wind\n', ''),
    );
    expect(firstRowOf(await asked(own, { weather: csv })).airCelsius).toBeCloseTo((30 - 32) / 1.8, 9);
  });

  it.each([
    ['time=when', 'time and temperature must both be named'],
    ['temperature=t', 'time and temperature must both be named'],
    ['time=when,temperature', '"temperature"'],
    ['time=when,temperature=', '"temperature="'],
    ['time=when,temperature=t=u', '"temperature=t=u"'],
    ['time=when,temperature=t,rain=r', 'time, temperature, humidity, sun, wind'],
    ['', '""'],
  ])('is refused with --columns %s', async (columns, says) => {
    const refusal = await asked(acceptedFrom(RIBEIRA), { weather: csv, columns }).catch(
      (error: unknown) => error,
    );
    expectRefused(refusal, ['--columns', says]);
  });

  it('is refused without any columns, and with columns but no file', async () => {
    const ribeira = acceptedFrom(RIBEIRA);
    expectRefused(await asked(ribeira, { weather: csv }).catch((error: unknown) => error), [
      '--columns time=…',
    ]);
    expectRefused(await asked(ribeira, { columns: COLUMNS }).catch((error: unknown) => error), [
      '--weather <file>',
    ]);
  });

  it('is refused with 4 and its problems as data when the file is wrong', async () => {
    const refusal: unknown = await asked(acceptedFrom(RIBEIRA), {
      weather: csv,
      columns: 'time=when,temperature=u',
    }).catch((error: unknown) => error);
    expectRefused(
      refusal,
      ['line 1, column u', '1 problem; the weather file was not accepted.'],
      EXIT.badInput,
    );
    expect(refusal).toMatchObject({ problems: [{ line: 1, column: 'u' }] });
  });
});
