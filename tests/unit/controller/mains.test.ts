import { describe, expect, it } from 'vitest';
import { farmWith } from '../../support/farm.ts';
import { seen, toldFrom, type Told } from './noon.ts';

const FARM = farmWith([['evidence'], { returnFlow: 'none', mainsPresent: true }]);

/** Held, so that nothing else wants to be looked at soon; the contact says so at each quarter of a minute. */
const told = (there: (minutes: number) => boolean, until: number, farm = FARM): Told => {
  const all = toldFrom(farm);
  all.tell(0, { kind: 'hold', minutes: 240, who: 'Ana' });
  all.lookOn(until, (minutes) => [{ channel: 'mains', there: there(minutes) }]);
  return all;
};
const wakesIn = (all: Told, minutes: number, there: boolean): number => {
  const step = all.tell(minutes, seen(minutes, { channel: 'mains', there }));
  return (step.wake - minutes * 60_000) / 1000;
};

describe('a shed with a mains contact', () => {
  it('is looked at every 30 s, and 10 s after the contact says lost; one without need not be', () => {
    expect(
      wakesIn(
        told(() => true, 1),
        1.25,
        true,
      ),
    ).toBe(30);
    expect(
      wakesIn(
        told(() => true, 1),
        1.25,
        false,
      ),
    ).toBe(10);
    const bare = toldFrom(farmWith([['evidence'], { returnFlow: 'none' }]));
    bare.tell(0, { kind: 'hold', minutes: 240, who: 'Ana' });
    expect(bare.tell(1, { kind: 'time' }).wake - 60_000).toBe(60_000);
  });

  it('has its alarm 10 s after the first word of a loss at the earliest, and none for one word', () => {
    expect(told((minutes) => minutes < 2, 5).raised('mains-lost')).toEqual([2.25]);
    expect(told((minutes) => minutes !== 2, 5).raised('mains-lost')).toEqual([]);
  });

  it('says so while a hold stands: it is about the pump, and not about who may use it', () => {
    const all = told((minutes) => minutes < 2, 3);
    expect(all.entries().find((entry) => entry.kind === 'alarm-raised')).toMatchObject({
      alarm: 'mains-lost',
      priority: 'high',
      text: expect.stringMatching(
        /^The mains have been lost since 12:02: the pump has no power\./,
      ) as unknown,
    });
  });

  it('does not count a mains sample where none is said to be fitted', () => {
    const bare = farmWith([['evidence'], { returnFlow: 'none' }]);
    expect(told(() => false, 5, bare).raised('mains-lost')).toEqual([]);
  });

  it('believes in no water from a pump without mains, where nothing else tells', () => {
    const dryFrom = (there: boolean): number => {
      const all = toldFrom(FARM);
      all.lookOn(20, () => [{ channel: 'mains', there }]);
      return all.state().belief.benches[0]!.theta;
    };
    expect(dryFrom(false)).toBeLessThan(dryFrom(true) - 0.2);
  });
});

describe('mains that come back in the run of a flood that was missed for want of them', () => {
  it('bring the flood that is owed after the shortest off, not after a rest', () => {
    const farm = farmWith([
      ['evidence'],
      { returnFlow: 'meter', mainsPresent: true, tankFloat: true, pumpCurrent: true },
    ]);
    const told = toldFrom(farm);
    const isOn = (): boolean => told.state().guard.asked.kind === 'on';
    told.lookOn(160, (minutes) => {
      const there = minutes < 30 || minutes >= 122.5;
      const runs = isOn() && there;
      return [
        { channel: 'return-flow', litresPerMinute: runs ? 40 : 0 },
        { channel: 'pump-current', drawing: runs },
        { channel: 'mains', there },
        { channel: 'tank-float', low: false },
        { channel: 'air-temperature', celsius: 33 + Math.sin(minutes / 7) },
      ];
    });
    expect(told.commands().filter((command) => Number(command.split(' ')[2]) > 110)).toEqual([
      'pump-off at 122.5',
      'pump-on at 123',
      'pump-off at 143',
    ]);
  });
});
