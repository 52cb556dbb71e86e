import { describe, expect, it } from 'vitest';
import type { Fault } from '../../../sim/faults/fault.ts';
import { rehearsed, type Outcome } from '../../../sim/run/rehearse.ts';
import { judgeRehearsal } from '../../../sim/run/verdict.ts';
import { madeSky } from '../../../sim/weather/made-day.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { wallMillis } from '../../../src/time/instant.ts';
import { localDayOn } from '../../../src/time/local-day.ts';
import { exampleFarm, farmWith } from '../../support/farm.ts';

const HOUR = 3_600_000;

const centralDay = (farm: Farm, faultsFrom: (start: number) => readonly Fault[]): Outcome => {
  const span = localDayOn('2026-07-15', farm.place.timeZone);
  const sky = madeSky({
    place: farm.place,
    start: wallMillis(span.start - 24 * HOUR),
    days: 5,
    ...farm.hotDay,
  });
  const [central] = [...rehearsed({ farm, span, sky, faults: faultsFrom(span.start), draws: 0, seed: 1 })];
  return central!;
};

describe('a plan of floods of 1.9 min with rests of 45 min', () => {
  const farm = farmWith(
    [['dayPlan'], [{ part: 'all day', from: '00:00', to: '00:00', restMinutes: 45, floodMinutes: 1.9 }]],
    [['temperatureRule'], { referenceCelsius: 30, restPercentPerDegree: 0 }],
    [['bounds', 'floodMinutes'], { shortest: 0.5, longest: 35 }],
    // So much that none is withheld for want of water.
    [['tank'], { litres: 5000, usualLitres: 4500, dryLitres: 60, topUp: 'by-hand' }],
  );
  const outcome = centralDay(farm, () => []);

  it('is asked what each of them missed would do, as a plan of long floods is', () => {
    for (const { oneMiss, lowest } of outcome.benches) {
      expect(oneMiss.missedAtMillis).toBeGreaterThan(0);
      expect(oneMiss.theta).toBeLessThan(lowest.value);
    }
  });

  it('does not hold if one is missed, for a wilt floor of 0.4', () => {
    const tender = { ...farm, floors: { stress: 0.5, wilt: 0.4 } };
    expect(judgeRehearsal(tender, [outcome]).kind).toBe('holds-unless-missed');
  });
});

describe('a pump that dies at 22:00', () => {
  const outcome = centralDay(exampleFarm, (start) => [
    { kind: 'pump-dead', fromMillis: start + 22 * HOUR, untilMillis: Infinity },
  ]);

  it('leaves no bench that wilts on the next day with a lowest held water above its wilt floor', () => {
    const wilted = outcome.benches.filter(({ wiltedAtMillis }) => wiltedAtMillis !== null);
    expect(wilted.length).toBeGreaterThan(0);
    for (const { lowest } of wilted) expect(lowest.value).toBeLessThanOrEqual(exampleFarm.floors.wilt);
  });
});
