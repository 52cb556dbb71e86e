import type { Farm } from '../../src/farm/farm.ts';
import { farmWith } from '../support/farm.ts';

/** A farm of the same short rest and flood the whole day, so that much happens in little time. */
export const QUICK = { restMinutes: 8, floodMinutes: 5 } as const;

/** The invented farm with that plan, whatever the temperature, and a tank that never runs low. */
export const quickFarm = (): Farm =>
  farmWith(
    [
      ['dayPlan'],
      [
        {
          part: 'all day',
          from: '00:00',
          to: '24:00',
          restMinutes: QUICK.restMinutes,
          floodMinutes: QUICK.floodMinutes,
        },
      ],
    ],
    [['temperatureRule'], { referenceCelsius: 30, restPercentPerDegree: 0 }],
    [
      ['bounds'],
      {
        restMinutesByDay: { shortest: 4, longest: QUICK.restMinutes },
        restMinutesByNight: { shortest: 4, longest: QUICK.restMinutes },
        floodMinutes: { shortest: 3, longest: 8 },
        startsPerHour: 12,
      },
    ],
    [['pump', 'longestOnMinutes'], 10],
    [['tank', 'topUp'], { floatValveAtLitres: 400, litresPerMinute: 40 }],
    [['evidence'], { returnFlow: 'switch', tankFloat: true }],
  );
