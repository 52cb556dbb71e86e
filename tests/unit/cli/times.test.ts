import { describe, expect, it } from 'vitest';
import {
  calendarDate,
  minuteOfDay,
  numberWithin,
  spanMinutes,
  wholeNumber,
} from '../../../firmware-host/cli/times.ts';
import { expectRefusal } from './refused.ts';

describe('spanMinutes', () => {
  it.each([
    ['24h', 1440],
    ['90min', 90],
    ['2d', 2880],
    ['30s', 0.5],
    ['1.5h', 90],
  ])('reads %s as %d min', (text, minutes) => {
    expect(spanMinutes(text, '--for')).toBe(minutes);
  });

  it.each([
    '',
    '24',
    'h',
    '0h',
    '-1h',
    '1e3h',
    '1 h',
    '24H',
    '1w',
    'NaNh',
    '1h30min',
    'Infinityd',
    '1constructor',
  ])('refuses "%s", naming the option', (text) => {
    expectRefusal(() => spanMinutes(text, '--for'), ['--for', `"${text}"`, '24h, 90min or 2d']);
  });
});

describe('minuteOfDay', () => {
  it.each([
    ['00:00', 0],
    ['5:30', 330],
    ['05:30', 330],
    ['13:00', 780],
    ['23:59', 1439],
  ])('reads %s as minute %d', (text, minute) => {
    expect(minuteOfDay(text, '--from')).toBe(minute);
  });

  it.each(['', '24:00', '12:60', '12', '12:5', '1200', '12.30', '-1:00', '12:00:00', ' 12:00', 'noon'])(
    'refuses "%s"',
    (text) => {
      expectRefusal(() => minuteOfDay(text, '--from'), ['--from', `"${text}"`, 'such as 13:00']);
    },
  );
});

describe('calendarDate', () => {
  it.each(['2020-01-02', '2024-02-29', '2026-07-15', '2100-12-31'])('takes %s', (text) => {
    expect(calendarDate(text, '--date')).toBe(text);
  });

  it.each([
    '',
    '2026-02-29',
    '2100-02-29',
    '2026-13-01',
    '2026-7-15',
    '15.07.2026',
    '2020-01-01',
    '2101-01-01',
    '2026-07-15T12:00',
    '+02026-07-15',
  ])('refuses "%s"', (text) => {
    expectRefusal(() => calendarDate(text, '--date'), ['--date', `"${text}"`, 'from 2020 to 2100']);
  });
});

describe('wholeNumber', () => {
  it.each([
    ['0', 0],
    ['1000', 1000],
    [' 7 ', 7],
  ])('reads "%s" as %d', (text, value) => {
    expect(wholeNumber(text, '--draws', 0, 1000)).toBe(value);
  });

  it.each(['', ' ', '-1', '1001', '2.5', 'NaN', 'Infinity', 'four', '4 5', '1,0'])('refuses "%s"', (text) => {
    expectRefusal(() => wholeNumber(text, '--draws', 0, 1000), ['--draws', `"${text}"`, 'from 0 to 1000']);
  });
});

describe('numberWithin', () => {
  it.each([
    ['-20', -20],
    ['20', 20],
    ['0.5', 0.5],
  ])('reads "%s" as %d', (text, value) => {
    expect(numberWithin(text, '--hotter', -20, 20)).toBe(value);
  });

  it.each(['', ' ', '-20.1', '20.1', 'NaN', 'Infinity', '-Infinity', '4°', '1,5'])('refuses "%s"', (text) => {
    expectRefusal(() => numberWithin(text, '--hotter', -20, 20), ['--hotter', `"${text}"`, 'from -20 to 20']);
  });
});
