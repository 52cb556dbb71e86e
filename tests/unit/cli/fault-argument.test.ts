import { describe, expect, it } from 'vitest';
import { faultFrom, faultList } from '../../../firmware-host/cli/fault-argument.ts';
import { FAULTS } from '../../../firmware-host/simulated-shed.ts';
import { localDayOn } from '../../../src/time/local-day.ts';
import { expectRefusal } from './refused.ts';

const day = localDayOn('2026-07-15', 'Europe/Lisbon');

describe('faultFrom', () => {
  it('reads pump-dead@13:00 as from 12:00 UTC on for good, Lisbon being an hour ahead in July', () => {
    expect(faultFrom('pump-dead@13:00', day)).toEqual({
      kind: 'pump-dead',
      fromMillis: Date.parse('2026-07-15T12:00Z'),
      untilMillis: Infinity,
    });
  });

  it('reads relay-open@09:00-10:30 as an hour and a half', () => {
    expect(faultFrom('relay-open@09:00-10:30', day)).toEqual({
      kind: 'relay-open',
      fromMillis: Date.parse('2026-07-15T08:00Z'),
      untilMillis: Date.parse('2026-07-15T09:30Z'),
    });
  });

  it('puts a fault at an hour that the clocks skip at the moment of their jump', () => {
    // In Lisbon the clocks go from 01:00 to 02:00 on 29 March 2026, at 01:00 UTC.
    const spring = localDayOn('2026-03-29', 'Europe/Lisbon');
    expect(faultFrom('leak@01:30', spring).fromMillis).toBe(Date.parse('2026-03-29T01:00Z'));
  });

  it.each(Object.keys(FAULTS))('takes %s, and lists it with what it does', (kind) => {
    expect(faultFrom(`${kind}@00:00`, day).kind).toBe(kind);
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
    ['leak@13:00-13:00', 'the end must lie after the start'],
    ['leak@13:00-12:59', 'the end must lie after the start'],
    ['@13:00', 'float-stuck-low'],
    ['PUMP-DEAD@13:00', 'float-stuck-low'],
    ['constructor@13:00', 'float-stuck-low'],
  ])('refuses "%s", saying what is allowed', (text, allowed) => {
    expectRefusal(() => faultFrom(text, day), ['--fault: found "', allowed]);
  });
});
