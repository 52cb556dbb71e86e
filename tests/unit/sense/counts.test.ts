import { describe, expect, it } from 'vitest';
import type { Wiring } from '../../../src/farm/farm.ts';
import { humidityOf, NO_CELSIUS, tankLitresOf, thermistorCelsius } from '../../../src/sense/counts.ts';
import { TEN_K } from '../../support/wiring.ts';

type Thermistor = NonNullable<Wiring['airThermistor']>;
const TO_GROUND: Thermistor = { pin: 'A0', ...TEN_K };
const TO_REFERENCE: Thermistor = { ...TO_GROUND, wired: 'to-reference' };
/** Steinhart & Hart 1968, fitted at 5, 25 and 45 °C to a maker's table (10 kΩ, B 3974). */
const MAKER: Thermistor = {
  ...TO_GROUND,
  steinhartHart: { a: 1.036859e-3, b: 2.515589e-4, c: 2.738594e-10 },
};
/** Ohm's law at the pin of a divider with 10 kΩ, thermistor to ground. */
const countsOf = (ohms: number): number => (1024 * ohms) / (ohms + 10_000);

describe('a thermistor of 10 k and 3950 K with 10 kΩ', () => {
  it.each([
    [300, 46.24],
    [512, 25.0],
    [700, 8.62],
  ])('R = 10k·n/(1024 − n) and the definition of B: count %d is %d °C', (counts, celsius) => {
    expect(Math.abs(thermistorCelsius(counts, TO_GROUND) - celsius)).toBeLessThanOrEqual(0.005);
    // The two resistors swapped give the rest of the voltage.
    expect(Math.abs(thermistorCelsius(1024 - counts, TO_REFERENCE) - celsius)).toBeLessThanOrEqual(0.005);
  });

  it.each([
    [-10, 58_246],
    [0, 33_621],
    [10, 20_175],
    [20, 12_535],
    [30, 8037],
    [40, 5302],
    [50, 3588],
  ])('definition of B: %d °C where it has %d Ω', (celsius, ohms) => {
    expect(Math.abs(thermistorCelsius(countsOf(ohms), TO_GROUND) - celsius)).toBeLessThanOrEqual(0.005);
  });
});

describe('a thermistor with a curve of its maker', () => {
  it.each([
    [15_881, 15.001],
    [6488, 35.002],
  ])('Steinhart & Hart 1968: %d Ω are %d °C, whatever B says', (ohms, celsius) => {
    for (const betaKelvin of [2500, 3950]) {
      const found = thermistorCelsius(countsOf(ohms), { ...MAKER, betaKelvin });
      expect(Math.abs(found - celsius)).toBeLessThanOrEqual(0.001);
    }
  });
});

// ATmega328P: the converter is true to ±2 counts, so the last two at an end are the end.
describe('an open or shorted thermistor', () => {
  it.each([TO_GROUND, TO_REFERENCE, MAKER])('is no temperature at 0 to 2 and 1021 to 1023', (part) => {
    for (const counts of [0, 1, 2, 1021, 1022, 1023]) {
      expect(thermistorCelsius(counts, part)).toBe(NO_CELSIUS);
    }
    for (const counts of [3, 1020]) expect(thermistorCelsius(counts, part)).toBeGreaterThan(NO_CELSIUS);
  });

  it('is absolute zero, colder than any air or water that is believed', () => {
    expect(NO_CELSIUS).toBe(-273.15);
  });
});

describe('a sensor with a straight line', () => {
  it('of the tank: 50 L at 0 counts, 600 L at 1023: 325 L in the middle, and a tenth and nine tenths between', () => {
    const part = { pin: 'A5', litresAtZero: 50, litresAtFullScale: 600 } as const;
    const litres = [102.3, 511.5, 920.7].map((counts) => tankLitresOf(counts, part));
    [105, 325, 545].forEach((expected, place) => {
      expect(litres[place]).toBeCloseTo(expected, 9);
    });
  });

  it('of the tank is no number within 2 counts of either end: a cut cable is not an empty tank', () => {
    const part = { pin: 'A5', litresAtZero: 50, litresAtFullScale: 600 } as const;
    for (const counts of [0, 2, 1021, 1023]) expect(tankLitresOf(counts, part)).toBeNaN();
    for (const counts of [3, 1020]) expect(tankLitresOf(counts, part)).toBeGreaterThan(50);
  });

  it('that looks down on the water falls as the tank fills: 600 L at 0 counts, −100 L at 1023', () => {
    const part = { pin: 'A5', litresAtZero: 600, litresAtFullScale: -100 } as const;
    expect(tankLitresOf(511.5, part)).toBe(250);
    expect(tankLitresOf(3, part)).toBeGreaterThan(597);
    expect(tankLitresOf(1020, part)).toBeLessThan(-97);
  });

  it('of humidity: −20 % at 0 counts, 140 % at 1023, 60 % in the middle', () => {
    const part = { pin: 'A4', percentAtZero: -20, percentAtFullScale: 140 } as const;
    expect([0, 511.5, 1023].map((counts) => humidityOf(counts, part))).toEqual([-20, 60, 140]);
  });
});
