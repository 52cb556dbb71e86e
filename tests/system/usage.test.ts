import { describe, expect, it } from 'vitest';
import { RIBEIRA, rillkeeper, SEATTLE } from './rillkeeper.ts';

interface Row {
  readonly args: readonly string[];
  readonly found: string;
  readonly allowed: string;
}

const rows: readonly Row[] = [
  { args: ['chekc'], found: "'chekc'", allowed: 'check, rehearse, tune, run' },
  { args: ['--quick'], found: "'--quick'", allowed: '-V, --version' },
  { args: ['check', RIBEIRA, '--jsn'], found: "'--jsn'", allowed: '--json; --schema' },
  { args: ['check', RIBEIRA, 'second'], found: 'too many arguments', allowed: 'check [options] [farm]' },
  { args: ['check'], found: 'name a farm file', allowed: '--schema' },
  { args: ['check', ''], found: 'name a farm file', allowed: '--schema' },
  { args: ['card', ''], found: 'found ""', allowed: 'the path of a farm file' },
  { args: ['help', 'rehears'], found: '"rehears"', allowed: 'check, rehearse, tune, run' },
  { args: ['help', 'board', 'flsh'], found: '"flsh"', allowed: 'list, info, watch, flash' },
  { args: ['rehearse'], found: 'name a farm file', allowed: '--scenarios' },
  {
    args: ['rehearse', RIBEIRA, '--scenario', 'heatwave'],
    found: '"heatwave"',
    allowed: 'heat-wave, pump-dead-worst',
  },
  {
    args: ['rehearse', RIBEIRA, '--scenario', 'hot-afternoon', '--drawn-days'],
    found: 'other weather asked for',
    allowed: 'the hot day of the farm file',
  },
  {
    args: ['rehearse', RIBEIRA, '--scenario', 'heat-wave', '--cold-spell', '3'],
    found: 'a cold spell asked for as well',
    allowed: 'Leave one of the two away',
  },
  {
    args: ['rehearse', SEATTLE, '--fault', 'float-stuck-low@09:00'],
    found: 'no tank float (evidence: tankFloat)',
    allowed: 'on a farm that has it',
  },
  { args: ['rehearse', RIBEIRA, '--days', '0'], found: '"0"', allowed: 'from 1 to 60' },
  {
    args: ['rehearse', RIBEIRA, '--date', '2026-02-30'],
    found: '"2026-02-30"',
    allowed: 'from 2020 to 2100',
  },
  {
    args: ['rehearse', RIBEIRA, '--date', '2101-01-01'],
    found: '"2101-01-01"',
    allowed: 'from 2020 to 2100',
  },
  { args: ['rehearse', RIBEIRA, '--hotter', 'NaN'], found: '"NaN"', allowed: 'a number from -20 to 20' },
  { args: ['rehearse', RIBEIRA, '--hotter', '21'], found: '"21"', allowed: 'a number from -20 to 20' },
  { args: ['rehearse', RIBEIRA, '--draws', '-1'], found: '"-1"', allowed: 'from 0 to 1000' },
  { args: ['rehearse', RIBEIRA, '--draws', '2.5'], found: '"2.5"', allowed: 'a whole number from 0 to 1000' },
  { args: ['rehearse', RIBEIRA, '--draws'], found: "'--draws <n>' argument missing", allowed: '--draws <n>' },
  { args: ['rehearse', RIBEIRA, '--seed', ''], found: '""', allowed: 'a whole number from 0' },
  { args: ['rehearse', RIBEIRA, '--fault', 'pump-dead'], found: '"pump-dead"', allowed: 'pump-dead@13:00' },
  {
    args: ['rehearse', RIBEIRA, '--fault', 'pump-ded@13:00'],
    found: '"pump-ded"',
    allowed: 'float-stuck-low',
  },
  { args: ['rehearse', RIBEIRA, '--fault', 'pump-dead@25:00'], found: '"25:00"', allowed: 'such as 13:00' },
  {
    args: ['rehearse', RIBEIRA, '--fault', 'leak@13:00-13:00'],
    found: '"leak@13:00-13:00"',
    allowed: 'the end must differ from the start',
  },
  {
    args: [
      'rehearse',
      RIBEIRA,
      '--weather',
      'node_modules/vega-datasets/data/seattle-weather-hourly-normals.csv',
    ],
    found: 'for a CSV no columns named',
    allowed: '--columns time=…,temperature=…',
  },
  {
    args: ['rehearse', RIBEIRA, '--heat-wave', '3', '--cold-spell', '3'],
    found: '--cold-spell',
    allowed: '--heat-wave <days[:+C]>',
  },
  {
    args: ['rehearse', RIBEIRA, '--drawn-days', '--hot-day'],
    found: '--hot-day',
    allowed: '--drawn-days',
  },
  {
    args: ['rehearse', RIBEIRA, '--drawn-days', '--weather', 'a.epw'],
    found: '--weather',
    allowed: '--drawn-days',
  },
  { args: ['rehearse', RIBEIRA, '--heat-wave', '5:-6'], found: '"5:-6"', allowed: '5 or 5:+6' },
  { args: ['rehearse', RIBEIRA, '--cloudy', '30'], found: '"30"', allowed: 'from 0.05 to 1' },
  { args: ['rehearse', SEATTLE, '--drawn-days'], found: 'no climate:', allowed: 'minCelsius, maxCelsius' },
  {
    args: ['rehearse', RIBEIRA, '--columns', 'time=a,temperature=b'],
    found: 'no weather file',
    allowed: '--weather <file>',
  },
  {
    args: ['rehearse', SEATTLE, '--columns', 'time=date'],
    found: 'temperature',
    allowed: 'must both be named',
  },
  {
    args: ['rehearse', SEATTLE, '--columns', 'time=date,heat=t'],
    found: '"heat=t"',
    allowed: 'time, temperature, humidity, sun, wind',
  },
  {
    args: ['rehearse', SEATTLE, '--hot-day', '--weather', 'a.csv'],
    found: '--weather',
    allowed: '--hot-day',
  },
  { args: ['run', RIBEIRA, '--speed', '0'], found: '"0"', allowed: 'from 0.1 to 100000' },
  { args: ['run', RIBEIRA, '--for', '24'], found: '"24"', allowed: '24h, 90min or 2d' },
  { args: ['run', RIBEIRA, '--for', '61d'], found: '"61d"', allowed: 'up to 60d' },
  { args: ['run', RIBEIRA, '--from', '5.30'], found: '"5.30"', allowed: 'such as 13:00' },
];

describe('a command line that cannot be followed', () => {
  it.each(rows)(
    '$args exits 2 and says what was found and what is allowed',
    async ({ args, found, allowed }) => {
      const { code, stdout, stderr } = await rillkeeper(...args);
      expect(code).toBe(2);
      expect(stdout).toBe('');
      expect(stderr).toContain(found);
      expect(stderr).toContain(allowed);
      expect(stderr).not.toMatch(/^\s+at /m);
    },
  );
});
