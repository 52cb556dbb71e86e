import { describe, it } from 'vitest';
import type { Wiring } from '../../src/farm/farm.ts';
import { METER_SHED, METER_WIRING } from './seven-sheds.ts';
import { ENDS_SOON, holds, type Expected, type Site } from './seven-ways.ts';

const AIR: Site = { part: 'airThermistor', reads: ['air'], farm: METER_SHED, wiring: METER_WIRING };
/** The water thermometer also brings the strength to 25 °C. */
const WATER: Site = { ...AIR, part: 'waterThermistor', reads: ['water', 'strength'], ends: ENDS_SOON };
const HUMIDITY: Site = { ...AIR, part: 'humidity', reads: ['humidity'], ends: ENDS_SOON };
const PROBE: Site = { ...AIR, part: 'probe', reads: ['strength'], ends: ENDS_SOON };

/** Counts too low read too hot with a thermistor to ground, and too cold with one to the reference. */
const COLD_WIRING: Wiring = {
  ...METER_WIRING,
  airThermistor: { ...METER_WIRING.airThermistor, wired: 'to-reference' },
  waterThermistor: { ...METER_WIRING.waterThermistor, wired: 'to-reference' },
};
/** After the fault, with time to be told. */
const AN_HOUR_LATER = 12.5;
const THREE_HOURS_LATER = 14.5 + 5 / 60;
const PLAUSIBLE = 'nothing else measures it, and so it may be';
/** The rests follow the air of half an hour ago: 1 °C is 3 % of a rest. */
const LATE_AIR = { by: 0.005, because: 'the rests follow what the air was, by 3 % for each degree' } as const;

const AIR_WAYS: readonly Expected[] = [
  { way: 'off', says: /no good temperature \(the air thermometer reads out of range: open or shorted\)/ },
  {
    way: 'stuck',
    ends: THREE_HOURS_LATER,
    says: /the air thermometer has not moved for 3 hours/,
    dryer: { by: 0.03, because: 'for three hours the rests stay as they were for 32 °C, up to 3 min longer' },
    falseBecause: 'it takes three hours to tell still air from a hung thermometer',
  },
  { way: 'garbage', says: /no good temperature \(the air thermometer jumped\)/ },
  { way: 'wrong', says: /no good temperature \(the air thermometer jumped\)/ },
  {
    way: 'wrong',
    wiring: COLD_WIRING,
    says: /no good temperature \(the air thermometer jumped\)/,
  },
  { way: 'slow', says: null, dryer: LATE_AIR },
  { way: 'delayed', says: null, dryer: LATE_AIR },
  { way: 'intermittent', says: /no good temperature \(the air thermometer/ },
];

const WATER_WAYS: readonly Expected[] = [
  { way: 'off', says: /water: the water thermometer reads out of range: open or shorted/ },
  { way: 'stuck', says: null, falseBecause: 'a covered tank may be still for a day' },
  { way: 'garbage', says: /water: the water thermometer jumped/ },
  { way: 'wrong', says: /water: the water thermometer jumped/ },
  {
    way: 'wrong',
    wiring: COLD_WIRING,
    ends: AN_HOUR_LATER,
    says: /strength: not compensated, no good water temperature: the water thermometer jumped/,
  },
  { way: 'slow', says: null, falseBecause: PLAUSIBLE },
  { way: 'delayed', says: null, falseBecause: PLAUSIBLE },
  { way: 'intermittent', says: /water: the water thermometer/ },
];

const HUMIDITY_WAYS: readonly Expected[] = [
  { way: 'off', says: /humidity: the humidity sensor reads out of range/ },
  { way: 'stuck', ends: THREE_HOURS_LATER, says: /humidity: the humidity sensor has not moved for 3 hours/ },
  { way: 'garbage', says: /humidity: the humidity sensor reads out of range/ },
  {
    way: 'wrong',
    ends: AN_HOUR_LATER,
    says: /humidity: the humidity sensor jumped/,
  },
  { way: 'slow', says: null },
  { way: 'delayed', says: null },
  { way: 'intermittent', says: /humidity: the humidity sensor reads out of range/ },
];

const PROBE_WAYS: readonly Expected[] = [
  { way: 'off', says: /strength: the probe reads near zero/ },
  { way: 'stuck', says: null, falseBecause: PLAUSIBLE },
  { way: 'garbage', says: /strength: the signal is noisy/ },
  { way: 'wrong', says: null, falseBecause: PLAUSIBLE },
  { way: 'slow', says: null },
  { way: 'delayed', says: null },
  { way: 'intermittent', says: /strength: the probe reads near zero/ },
];

const named = (ways: readonly Expected[]): (readonly [string, Expected])[] =>
  ways.map((expected) => [
    `${expected.way}${expected.wiring === undefined ? '' : ', wired so that it reads too cold'}`,
    expected,
  ]);

describe('the air thermometer, from 11:20 on a hot day', () => {
  it.each(named(AIR_WAYS))('%s', (_, way) => holds(AIR, way));
});

describe('the water thermometer, from 11:20 on a hot day', () => {
  it.each(named(WATER_WAYS))('%s', (_, way) => holds(WATER, way));
});

describe('the humidity sensor, from 11:20 on a hot day', () => {
  it.each(named(HUMIDITY_WAYS))('%s', (_, way) => holds(HUMIDITY, way));
});

describe('the probe, from 11:20 on a hot day', () => {
  it.each(named(PROBE_WAYS))('%s', (_, way) => holds(PROBE, way));
});
