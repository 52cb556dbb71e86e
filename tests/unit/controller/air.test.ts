import { describe, expect, it } from 'vitest';
import { believedAir } from '../../../src/controller/air.ts';
import type { Reading } from '../../../src/sense/reading.ts';
import type { Now } from '../../../src/time/instant.ts';
import { exampleFarm } from '../../support/farm.ts';
import { at, seen, toldFrom } from './noon.ts';

interface Shown {
  /** Minutes from noon in Lisbon, which is 5 h 36 min after sunrise and 8 h 52 min before sunset. */
  readonly minutes?: number;
  readonly air: number;
  readonly water?: number;
  readonly wall?: 'unknown';
}

const believed = ({ minutes = 0, air, water, wall }: Shown): Reading<number> => {
  const told = toldFrom(exampleFarm, minutes);
  told.tell(
    minutes,
    seen(
      minutes,
      { channel: 'air-temperature', celsius: air },
      ...(water === undefined ? [] : [{ channel: 'water-temperature', celsius: water } as const]),
    ),
  );
  const now: Now = wall === undefined ? at(minutes) : { ...at(minutes), wall };
  return believedAir({ farm: exampleFarm, now, state: told.state(), commands: [], entries: [] });
};
const quality = (shown: Shown): string => believed(shown).quality;
const HOUR = 60;

describe('the air against the water, by day', () => {
  it('is good when it is 8 °C colder, suspect when it is 8.1 °C colder, and says so', () => {
    expect(believed({ air: 18, water: 26 })).toMatchObject({ quality: 'good', value: 18 });
    expect(believed({ air: 17.9, water: 26 })).toMatchObject({
      quality: 'suspect',
      value: 17.9,
      why: 'the air thermometer reads 8 °C colder than the one in the water, by day: one of them is wrong',
    });
  });

  it('may be hotter by any amount', () => {
    expect(quality({ air: 45, water: 15 })).toBe('good');
  });

  it('is looked at from 3 h after sunrise, about 09:24, until sunset, about 20:52', () => {
    const cold = { air: 10, water: 26 };
    expect(quality({ ...cold, minutes: -2.75 * HOUR })).toBe('good');
    expect(quality({ ...cold, minutes: -2.5 * HOUR })).toBe('suspect');
    expect(quality({ ...cold, minutes: 8.75 * HOUR })).toBe('suspect');
    expect(quality({ ...cold, minutes: 9 * HOUR })).toBe('good');
    expect(quality({ ...cold, minutes: 11 * HOUR })).toBe('good');
  });

  it('is believed alone where nobody knows the time, or the water', () => {
    expect(quality({ air: 10, water: 26, wall: 'unknown' })).toBe('good');
    expect(quality({ air: 10 })).toBe('good');
    expect(quality({ air: 10, water: -273.15 })).toBe('good');
  });

  it('makes no better of a thermometer that is bad by itself', () => {
    expect(believed({ air: -127, water: 20 })).toMatchObject({ quality: 'absent' });
  });
});

describe('a thermometer that is much colder than the water', () => {
  it('has the plan at its wet end: the rest is the shortest of 10 min, and the reason says why', () => {
    const told = toldFrom(exampleFarm);
    told.tell(0, seen(0));
    told.lookOn(45, () => [
      { channel: 'air-temperature', celsius: 12 },
      { channel: 'water-temperature', celsius: 26 },
      { channel: 'return-flow', litresPerMinute: told.state().guard.asked.kind === 'on' ? 40 : 0 },
    ]);
    const starts = told.entries().filter((entry) => entry.kind === 'flood-started');
    // The first flood of 20 min starts at 0.5; the next look after the rest is at most half a minute late.
    expect(starts[1]!.at / 60_000 - 20.5).toBeGreaterThanOrEqual(10);
    expect(starts[1]!.at / 60_000 - 20.5).toBeLessThanOrEqual(10.5);
    expect(starts[1]?.reason).toMatch(
      /the air thermometer reads 14 °C colder than the one in the water, by day/,
    );
    expect(told.raised('no-good-temperature')).toEqual([10]);
  });
});
