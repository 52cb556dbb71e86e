import { describe, expect, it } from 'vitest';
import { factsOn } from '../../../src/estimate/bench-facts.ts';
import { bucketNow } from '../../../src/estimate/bucket-now.ts';
import { bucketRounds } from '../../../src/estimate/bucket-round.ts';
import { hotDayUptake, referenceDay } from '../../../src/estimate/reference-day.ts';
import { wallMillis, type WallMillis } from '../../../src/time/instant.ts';
import { localClockInstant, localDayOn } from '../../../src/time/local-day.ts';
import { exampleFarm } from '../../support/farm.ts';

const DATE = '2026-07-14';
const LOCAL = localDayOn(DATE, exampleFarm.place.timeZone);
const OUTLOOK = {
  facts: factsOn(exampleFarm, DATE),
  day: referenceDay(exampleFarm, LOCAL.start),
  hotterShare: 1,
};
const at = (hour: number): WallMillis => wallMillis(localClockInstant(LOCAL, hour * 60));
const NOBODY = { minutes: 1440, bench: null };
const pace = (wall: WallMillis | 'unknown', hotterShare = 1): number =>
  bucketNow(exampleFarm, { ...OUTLOOK, hotterShare }, NOBODY, wall)?.everyMinutes ?? 0;

describe('water by hand from now on', () => {
  it('begins with the bench that wilts first, and with the one that dries fastest where none is named', () => {
    const noon = bucketRounds(exampleFarm, OUTLOOK.facts, hotDayUptake(OUTLOOK.day, at(12)));
    const last = noon.at(-1)!.bench;
    expect(bucketNow(exampleFarm, OUTLOOK, { minutes: 9, bench: last }, at(12))?.bench).toBe(last);
    expect(bucketNow(exampleFarm, OUTLOOK, NOBODY, at(12))?.bench).toBe(noon[0]!.bench);
  });

  it('is poured before the sun is high: at 7:00 by what is drunk at 11:00', () => {
    const now = bucketRounds(exampleFarm, OUTLOOK.facts, hotDayUptake(OUTLOOK.day, at(7)))[0]!;
    const later = bucketRounds(exampleFarm, OUTLOOK.facts, hotDayUptake(OUTLOOK.day, at(11)))[0]!;
    expect(pace(at(7))).toBeLessThanOrEqual(later.everyMinutes!);
    expect(pace(at(7))).toBeLessThan(now.everyMinutes!);
  });

  it('is poured oftener on a day hotter than the hot day, and no seldomer on a cooler one', () => {
    expect(pace(at(12), 2)).toBeLessThan(pace(at(12)));
    expect(pace(at(12), 0.2)).toBe(pace(at(12)));
    // A thermometer may be wrong: twice the hot day is the most that is believed.
    expect(pace(at(12), 50)).toBe(pace(at(12), 2));
  });

  it('is that of the noon of the hot day where nobody knows the time', () => {
    const { noonMillimetresPerHour } = OUTLOOK.day;
    const noon = bucketRounds(exampleFarm, OUTLOOK.facts, noonMillimetresPerHour)[0]!;
    expect(pace('unknown')).toBe(noon.everyMinutes);
  });

  it('is none where nothing is planted', () => {
    const facts = OUTLOOK.facts.map((bench) => ({ ...bench, planted: false }));
    expect(bucketNow(exampleFarm, { ...OUTLOOK, facts }, NOBODY, at(12))).toBeNull();
  });
});
