import { describe, expect, it } from 'vitest';
import { faultFrom, faultList } from '../../../firmware-host/cli/fault-argument.ts';
import { FAULTS } from '../../../firmware-host/simulated-shed.ts';
import { localDayOn } from '../../../src/time/local-day.ts';
import { exampleFarm, farmWith } from '../../support/farm.ts';
import { expectRefusal } from './refused.ts';

const day = localDayOn('2026-07-15', 'Europe/Lisbon');

describe('faultFrom', () => {
  it('reads pump-dead@13:00 as from 12:00 UTC on for good, Lisbon being an hour ahead in July', () => {
    expect(faultFrom('pump-dead@13:00', day, exampleFarm)).toEqual({
      kind: 'pump-dead',
      fromMillis: Date.parse('2026-07-15T12:00Z'),
      untilMillis: Infinity,
    });
  });

  it('reads relay-open@09:00-10:30 as an hour and a half', () => {
    expect(faultFrom('relay-open@09:00-10:30', day, exampleFarm)).toEqual({
      kind: 'relay-open',
      fromMillis: Date.parse('2026-07-15T08:00Z'),
      untilMillis: Date.parse('2026-07-15T09:30Z'),
    });
  });

  it('reads mains-lost@22:00-02:00 as four hours over midnight', () => {
    expect(faultFrom('mains-lost@22:00-02:00', day, exampleFarm)).toEqual({
      kind: 'mains-lost',
      fromMillis: Date.parse('2026-07-15T21:00Z'),
      untilMillis: Date.parse('2026-07-16T01:00Z'),
    });
  });

  it('refuses two times within the hour that the clocks skip', () => {
    const spring = localDayOn('2026-03-29', 'Europe/Lisbon');
    expectRefusal(
      () => faultFrom('leak@01:15-01:30', spring, exampleFarm),
      ['the end must lie after the start'],
    );
  });

  it('puts a fault at an hour that the clocks skip at the moment of their jump', () => {
    // In Lisbon the clocks go from 01:00 to 02:00 on 29 March 2026, at 01:00 UTC.
    const spring = localDayOn('2026-03-29', 'Europe/Lisbon');
    expect(faultFrom('leak@01:30', spring, exampleFarm).fromMillis).toBe(Date.parse('2026-03-29T01:00Z'));
  });

  it.each([
    ['inlet-blocked:Bench 2@13:00', { bench: 1 }],
    ['branch-clogging:Bench 4@13:00', { bench: 3 }],
    ['branch-clogging:Bench 2:30%:7d@13:00', { bench: 1, clogging: { endShare: 0.3, days: 7 } }],
    ['branch-clogging:Bench 2:0%@13:00', { bench: 1, clogging: { endShare: 0, days: 21 } }],
    ['branch-clogging:5d@13:00', { clogging: { endShare: 0.1, days: 5 } }],
  ])('reads %s with its bench and its course', (text, about) => {
    expect(faultFrom(text, day, exampleFarm)).toEqual({
      kind: text.split(':')[0],
      fromMillis: Date.parse('2026-07-15T12:00Z'),
      untilMillis: Infinity,
      ...about,
    });
  });

  it('reads a bench of which the name has a colon and an @', () => {
    const farm = farmWith([['benches', 2, 'name'], 'North: 2 @ wall']);
    expect(faultFrom('inlet-blocked:North: 2 @ wall@13:00', day, farm).bench).toBe(2);
  });

  it.each(Object.keys(FAULTS))('takes %s, and lists it with what it does', (kind) => {
    expect(faultFrom(`${kind}@00:00`, day, exampleFarm).kind).toBe(kind);
    expect(faultList()).toMatch(new RegExp(`^  ${kind} +\\w`, 'm'));
  });

  it.each([
    ['pump-dead', 'such as pump-dead@13:00'],
    ['pump-dead@', 'such as pump-dead@13:00'],
    ['', 'such as pump-dead@13:00'],
    ['pump-dead@12:00@13:00', 'such as pump-dead@13:00'],
    ['leak@12:00-13:00-14:00', 'such as pump-dead@13:00'],
    ['leak@24:00', 'such as 13:00'],
    ['leak@12:00-', 'such as 13:00'],
    ['leak@13:00-13:00', 'the end must differ from the start'],
    ['@13:00', 'float-stuck-low'],
    ['PUMP-DEAD@13:00', 'float-stuck-low'],
    ['constructor@13:00', 'float-stuck-low'],
    ['inlet-blocked:Bench 9@13:00', 'allowed is "Bench 1", "Bench 2", "Bench 3", "Bench 4".'],
    ['inlet-blocked:@13:00', 'allowed is "Bench 1"'],
    ['inlet-blocked:Bench 2:30%@13:00', 'allowed is "Bench 1"'],
    ['leak:Bench 2@13:00', 'it is about no bench'],
    ['branch-clogging:Bench 2:100%@13:00', 'allowed is 0% to 99%'],
    ['branch-clogging:Bench 2:0d@13:00', 'allowed is 1d to 60d'],
    ['branch-clogging:Bench 2:61d@13:00', 'allowed is 1d to 60d'],
    ['branch-clogging:Bench 2:7d:30%@13:00', 'allowed is "Bench 1"'],
  ])('refuses "%s", saying what is allowed', (text, allowed) => {
    expectRefusal(() => faultFrom(text, day, exampleFarm), ['--fault: found "', allowed]);
  });
});
