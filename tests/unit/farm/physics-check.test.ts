import { describe, expect, it } from 'vitest';
import { physicsWarnings, type FarmWarning } from '../../../src/farm/physics-check.ts';
import { farmWith, type Change } from './example.ts';

const TODAY = '2026-07-14';

const warningsWith = (...changes: readonly Change[]): readonly FarmWarning[] =>
  physicsWarnings(farmWith(...changes), TODAY);

/** The changes bring exactly one warning, at this place and with these words. */
const warns = (changes: readonly Change[], place: string, says: RegExp): void => {
  const warnings = warningsWith(...changes);
  expect(warnings.map(({ path }) => path.join('.'))).toEqual([place]);
  expect(warnings[0]!.says).toMatch(says);
  expect(warnings[0]!.advice).not.toBe('');
};

describe('physicsWarnings', () => {
  it('has nothing to say about the example', () => {
    expect(warningsWith()).toEqual([]);
  });

  it.each<[string, readonly Change[], string, RegExp]>([
    [
      '0.25 L/min in each channel',
      [[['benches', 0, 'litresPerMinute'], 3]],
      'benches.0.litresPerMinute',
      /0\.25 L\/min .* little/,
    ],
    [
      '3.1 L/min in each channel',
      [
        [['benches', 0, 'channels'], 3],
        [['benches', 0, 'plants'], 60],
        [['benches', 0, 'litresPerMinute'], 9.3],
      ],
      'benches.0.litresPerMinute',
      /3\.1 L\/min .* much/,
    ],
    [
      'a slope of 0.9 %',
      [[['benches', 1, 'slopePercent'], 0.9]],
      'benches.1.slopePercent',
      /0\.9 % is below 1 %/,
    ],
    [
      'a channel of 16 m',
      [[['benches', 1, 'lengthMetres'], 16]],
      'benches.1.lengthMetres',
      /16 m is unusual/,
    ],
    [
      'a pipe of 200 mm',
      [[['benches', 1, 'innerDiameterMillimetres'], 200]],
      'benches.1.innerDiameterMillimetres',
      /200 mm is unusual/,
    ],
    [
      'a pipe of 39 mm',
      [[['benches', 1, 'innerDiameterMillimetres'], 39]],
      'benches.1.innerDiameterMillimetres',
      /39 mm is unusual/,
    ],
    [
      'a tank that the channels drink dry',
      [
        [['tank', 'usualLitres'], 280],
        [['tank', 'litres'], 500],
      ],
      'tank.usualLitres',
      /^Of 280 L, about 160 L stand .* draw air/,
    ],
    [
      'a float valve that fills what will run back',
      [[['tank', 'topUp'], { floatValveAtLitres: 450, litresPerMinute: 5 }]],
      'tank.topUp.floatValveAtLitres',
      /fills to 450 L while about 160 L/,
    ],
    [
      'a pump of 40 W that would lift 51 W',
      [[['pump', 'watts'], 40]],
      'pump.watts',
      /at most 51 W of water, 127 % of its 40 W/,
    ],
    ['a pump of 3000 W that lifts 51 W', [[['pump', 'watts'], 3000]], 'pump.watts', /2 % of its 3000 W/],
    [
      'butterhead of 89 days',
      [[['benches', 1, 'sown'], '2026-04-16']],
      'benches.1.sown',
      /89 days old; butterhead is usually cut at 55/,
    ],
    [
      'a bench that is sown tomorrow',
      [[['benches', 1, 'sown'], '2026-07-15']],
      'benches.1.sown',
      /sown only in 1 days, on 2026-07-15/,
    ],
    [
      '12.5 plants in a metre',
      [[['benches', 0, 'plants'], 900]],
      'benches.0.plants',
      /12\.5 plants in each metre/,
    ],
    [
      '0.8 plants in a metre',
      [[['benches', 0, 'plants'], 60]],
      'benches.0.plants',
      /0\.8 plants in each metre/,
    ],
    [
      'a flood of 41 min',
      [
        [['bounds', 'floodMinutes', 'longest'], 45],
        [['dayPlan', 1, 'floodMinutes'], 41],
      ],
      'dayPlan.1.floodMinutes',
      /41 min is long/,
    ],
    [
      'a flood of 4 min',
      [
        [['bounds', 'floodMinutes', 'shortest'], 4],
        [['dayPlan', 3, 'floodMinutes'], 4],
      ],
      'dayPlan.3.floodMinutes',
      /4 min may end before/,
    ],
    [
      '5 floods in 2 h: rests of 4 min',
      [[['dayPlan', 0, 'floods'], 5]],
      'dayPlan.0.floods',
      /leave 4 min of rest, less than the shortest of 10 min/,
    ],
    [
      '2 floods in a night of 8.7 h',
      [[['dayPlan', 3, 'floods'], 2]],
      'dayPlan.3.floods',
      /more than the longest of 210 min/,
    ],
    [
      'one start an hour where the heat asks for two',
      [
        [['bounds', 'startsPerHour'], 1],
        [['dayPlan', 0, 'floods'], 1],
        [['dayPlan', 2, 'floods'], 3],
      ],
      'bounds.startsPerHour',
      /“heat of the day” asks for up to 2 starts an hour at 36 °C; the limit is 1/,
    ],
    ['no evidence of return flow', [[['evidence', 'returnFlow'], 'none']], 'evidence.returnFlow', /unproven/],
    [
      'no air temperature',
      [[['sensors', 'airTemperature'], false]],
      'sensors.airTemperature',
      /treated as hot/,
    ],
    ['no outside watcher', [[['outsideWatcher'], 'nobody']], 'outsideWatcher', /nobody is told/],
    [
      'a dead board that lets the pump run',
      [[['deadBoard'], 'pump-runs']],
      'deadBoard',
      /normally-closed contact/,
    ],
    [
      'a relay that stock firmware pulls when it starts',
      [
        [
          ['board'],
          {
            relay: { pin: 7, energised: 'low' },
            returnFlow: { pin: 2, pulsesPerLitre: 10 },
            tankFloat: { pin: 4 },
            airThermistor: { pin: 'A0' },
            humidity: { pin: 'A4' },
          },
        ],
      ],
      'board.relay.energised',
      /this relay is pulled from then until the host takes over/,
    ],
  ])('warns of %s', (_, changes, place, says) => {
    warns(changes, place, says);
  });

  it.each([
    [12, /would run 5\d % full even without roots/],
    [24, /would run over even without roots/],
  ])('warns that 2 channels of 40 mm at 0.1 %% cannot well carry %s L/min', (litresPerMinute, words) => {
    const says = warningsWith(
      [['benches', 0, 'slopePercent'], 0.1],
      [['benches', 0, 'innerDiameterMillimetres'], 40],
      [['benches', 0, 'channels'], 2],
      [['benches', 0, 'plants'], 40],
      [['benches', 0, 'litresPerMinute'], litresPerMinute],
    ).map((warning) => warning.says);
    expect(says.filter((line) => words.test(line))).toHaveLength(1);
  });

  it('pump-runs asks for a hard-wired float, a continuous-duty pump and a tested overflow', () => {
    const [warning] = warningsWith([['deadBoard'], 'pump-runs']);
    expect(warning!.advice).toMatch(
      /hard-wired low-level float in series.*continuous duty.*tested overflow path/,
    );
  });

  it('says nothing about the age of a bench without plants', () => {
    expect(warningsWith([['benches', 1, 'plants'], 0], [['benches', 1, 'sown'], '2025-01-01'])).toEqual([]);
  });
});
