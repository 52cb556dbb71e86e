import { describe, expect, it } from 'vitest';
import { drawnRun } from '../../../sim/campaign/seed.ts';
import type { AlarmName } from '../../../sim/oracle/alarm-log.ts';
import { causes } from '../../../sim/oracle/invariants/causes.ts';
import type { Broken, RunRecord } from '../../../sim/oracle/record.ts';

const HOUR = 3_600_000;
const DAYS = 35;
const { farm } = drawnRun({ seed: 42, days: 1 });
const FULL = farm.tank.litres;

/** An alarm told at this hour of 35 days; `litres` is the tank by the hour. */
const alarmed = (
  alarm: AlarmName,
  hour: number,
  litres: (hour: number) => number,
  broken: readonly Broken[] = [],
): RunRecord => {
  const atMillis = Array.from({ length: DAYS * 24 }, (_, place) => (place + 1) * HOUR);
  return {
    farm,
    startMillis: 0,
    endMillis: DAYS * 24 * HOUR,
    clearMillis: 0,
    broken,
    truth: {
      atMillis,
      held: [],
      inflow: [],
      returning: [],
      tankLitres: atMillis.map((at) => litres(at / HOUR)),
      airCelsius: [],
      way: [],
      drop: [],
      runs: [],
    },
    thirsty: [],
    rows: [
      {
        life: 0,
        atMillis: hour * HOUR,
        entry: { kind: 'alarm-raised', alarm, priority: 'low' },
      },
    ] as unknown as RunRecord['rows'],
    acknowledged: [],
    tries: [],
    orders: [],
  };
};
const told = (hour: number, litres: (hour: number) => number, broken?: readonly Broken[]): RunRecord =>
  alarmed('float-unmoved', hour, litres, broken);
const DRY_AT =
  (dry: number) =>
  (hour: number): number =>
    hour === dry ? 1 : FULL;

describe('the word that the float has not moved for 30 days, to the judge', () => {
  it.each([
    ['is true after 30 d 1 h of a full tank', told(721, () => FULL), 0],
    ['is true after 30 d 1 h of one that is low', told(721, () => 1), 0],
    ['is false after 29 d 23 h', told(719, () => FULL), 1],
    ['is false where the tank was low for an hour on day 20', told(721, DRY_AT(480)), 1],
    ['is true where that was more than 30 days before', told(800, DRY_AT(60)), 0],
    [
      'is true where the float was stuck then',
      told(721, DRY_AT(480), [
        { name: 'sensor-stuck', channel: 'tank-float', fromMillis: 400 * HOUR, untilMillis: 500 * HOUR },
      ]),
      0,
    ],
    [
      'is false after 20 d of a stuck float',
      told(480, () => FULL, [
        { name: 'sensor-stuck', channel: 'tank-float', fromMillis: 0, untilMillis: 480 * HOUR },
      ]),
      1,
    ],
  ])('%s', (_, record, breaches) => {
    expect(causes(record)).toHaveLength(breaches);
  });
});

describe(`the word that a tank of ${FULL} L is full to its brim, to the judge`, () => {
  /** One part in a hundred of it, and 4 L of a cheap sensor. */
  const BELOW = FULL / 100 + 4;
  it.each([
    ['is true in a tank that is full', 0, 0],
    ['is true where the channels drain back to just below the brim', BELOW - 0.1, 0],
    ['is false a little below that', BELOW + 0.1, 1],
    ['is false in a tank that is half full', FULL / 2, 1],
  ])('%s', (_, below, breaches) => {
    expect(causes(alarmed('tank-full', 100, () => FULL - below))).toHaveLength(breaches);
  });
  it('is false after a tank that was full an hour ago', () => {
    expect(causes(alarmed('tank-full', 100, (hour) => (hour < 100 ? FULL : FULL / 2)))).toHaveLength(1);
  });
});

describe('the word that benches dry out, of a tank with nothing broken, to the judge', () => {
  const BELOW = farm.tank.dryLitres + 29;
  const LOW_AT =
    (low: number, litres = BELOW) =>
    (hour: number): number =>
      hour === low ? litres : FULL;
  it.each([
    ['is true in a tank that is low', 100, LOW_AT(100), 0],
    ['is true of one that was low in a flood of the last 6 h and has filled since', 105, LOW_AT(100), 0],
    ['is false of one that was low before that', 107, LOW_AT(100), 1],
    ['is false of one that has yet to be low', 99, LOW_AT(100), 1],
    ['is false of one that came near to it', 105, LOW_AT(100, BELOW + 2), 1],
  ])('%s', (_, hour, litres, breaches) => {
    expect(causes(alarmed('drying-out', hour, litres))).toHaveLength(breaches);
  });
});
