import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  betaCelsius,
  betaOhms,
  dividerReading,
  pinVolts,
  steinhartHartCelsius,
  steinhartHartOhms,
  steinhartHartThrough,
  type Divider,
  type ThermistorPoint,
} from '../../../src/physics/thermistor.ts';
import { between } from '../../support/between.ts';

const PART = { ohmsAt25: 10_000, betaKelvin: 3950 };
const TO_GROUND: Divider = { fixedOhms: 10_000, thermistor: 'to-ground' };
const TO_REFERENCE: Divider = { fixedOhms: 10_000, thermistor: 'to-reference' };
/** Steinhart & Hart 1968, fitted at 5, 25 and 45 °C to a maker's table (10 kΩ, B 3974). */
const MAKER = { a: 1.036859e-3, b: 2.515589e-4, c: 2.738594e-10 };

const ohmsOf = (counts: number, divider: Divider): number => {
  const reading = dividerReading(counts, divider);
  return reading.kind === 'resistance' ? reading.ohms : NaN;
};

describe('the converter', () => {
  it.each([
    [1, 0.00488],
    [512, 2.5],
    [1023, 4.995],
  ])('ATmega328P datasheet, ADC Conversion Result, 5 V and 10 bit: count %d is %d V', (counts, volts) => {
    expect(Math.abs(pinVolts(counts, 5) - volts)).toBeLessThanOrEqual(0.0005 * (volts < 1 ? 0.01 : 1));
  });

  it('ATmega328P formula with 12 bit and 3.3 V: count 2048 is 1.65 V', () => {
    expect(pinVolts(2048, 3.3, 12)).toBe(1.65);
  });
});

describe('the divider', () => {
  it.each([
    [300, 46.24],
    [512, 25.0],
    [700, 8.62],
  ])('R = 10k·n/(1024 − n), thermistor to ground, B 3950: count %d is %d °C', (counts, celsius) => {
    expect(Math.abs(betaCelsius(ohmsOf(counts, TO_GROUND), PART) - celsius)).toBeLessThanOrEqual(0.005);
  });

  // Ohm's law: the same two resistors swapped give the rest of the voltage.
  it('the other way round reads the same resistance at 1024 − n, for every count from 4 to 1020', () => {
    for (let counts = 4; counts <= 1020; counts += 1) {
      const share = ohmsOf(1024 - counts, TO_REFERENCE) / ohmsOf(counts, TO_GROUND);
      expect(share).toBeCloseTo(1, 12);
    }
    expect(ohmsOf(324, TO_REFERENCE)).toBeCloseTo(ohmsOf(700, TO_GROUND), 9);
  });

  // ATmega328P: ±2 counts. Ends are 0–2 and 1021–1023.
  it.each([
    ['to-ground', 'short', 'open'],
    ['to-reference', 'open', 'short'],
  ] as const)(
    'ATmega328P ±2 counts: %s is %s at 0–2, %s at 1021–1023 and a resistance between',
    (thermistor, low, high) => {
      const kinds = Array.from(
        { length: 1024 },
        (_, counts) => dividerReading(counts, { fixedOhms: 10_000, thermistor }).kind,
      );
      expect(kinds.slice(0, 3)).toEqual([low, low, low]);
      expect(kinds.slice(1021)).toEqual([high, high, high]);
      expect(new Set(kinds.slice(3, 1021))).toEqual(new Set(['resistance']));
    },
  );

  it.each([-1, -0.001, 1023.001, 1024, NaN, Infinity])('a count of %d cannot come from 10 bit', (counts) => {
    expect(dividerReading(counts, TO_GROUND)).toEqual({ kind: 'impossible-count' });
  });

  it('with 12 bit the middle is 2048 and 4093 is open', () => {
    const divider: Divider = { ...TO_GROUND, bits: 12 };
    expect(ohmsOf(2048, divider)).toBe(10_000);
    expect(ohmsOf(4092, divider)).toBe((10_000 * 4092) / 4);
    expect(dividerReading(4093, divider).kind).toBe('open');
  });
});

describe('the beta model', () => {
  it.each([
    [-10, 58_246],
    [0, 33_621],
    [5, 25_925],
    [10, 20_175],
    [15, 15_837],
    [20, 12_535],
    [25, 10_000],
    [30, 8037],
    [35, 6506],
    [40, 5301],
    [50, 3588],
  ])('definition of B, 10 k and 3950 K: at %d °C it has %d Ω, and back', (celsius, ohms) => {
    expect(Math.abs(betaOhms(celsius, PART) - ohms)).toBeLessThanOrEqual(0.5);
    expect(Math.abs(betaCelsius(ohms, PART) - celsius)).toBeLessThanOrEqual(0.005);
  });

  it('vendors’ "10k 3950" tables, 3588 Ω at 50 °C: that pair and 10 k at 25 °C is what B means', () => {
    const betaKelvin = Math.log(10_000 / 3588) / (1 / 298.15 - 1 / 323.15);
    expect(Math.abs(betaKelvin - 3950)).toBeLessThanOrEqual(1);
    expect(betaOhms(50, { ohmsAt25: 10_000, betaKelvin })).toBeCloseTo(3588, 6);
  });

  it('comes back to the same temperature within 1e-9 °C from −40 to 125 °C for any part', () => {
    fc.assert(
      fc.property(
        between(-40, 125),
        between(1000, 100_000),
        between(2500, 5000),
        (celsius, ohmsAt25, betaKelvin) => {
          const part = { ohmsAt25, betaKelvin };
          expect(Math.abs(betaCelsius(betaOhms(celsius, part), part) - celsius)).toBeLessThan(1e-9);
        },
      ),
    );
  });
});

describe('the Steinhart–Hart curve', () => {
  it.each([
    [15_881, 15.001],
    [6488, 35.002],
  ])('Steinhart & Hart 1968 on a maker’s table: %d Ω is %d °C, and back', (ohms, celsius) => {
    expect(Math.abs(steinhartHartCelsius(ohms, MAKER) - celsius)).toBeLessThanOrEqual(0.0006);
    expect(Math.abs(steinhartHartOhms(celsius, MAKER) - ohms)).toBeLessThanOrEqual(0.5);
  });

  it('Steinhart & Hart 1968: comes back to the same temperature within 1e-9 °C from −55 to 200 °C', () => {
    fc.assert(
      fc.property(between(-55, 200), (celsius) => {
        expect(
          Math.abs(steinhartHartCelsius(steinhartHartOhms(celsius, MAKER), MAKER) - celsius),
        ).toBeLessThan(1e-9);
      }),
    );
  });

  // Without the cubic term it is the beta model: 1/T = 1/298.15 + ln(R/R25)/B.
  it('definition of B: with c = 0 it is the beta model', () => {
    const asCurve = { a: 1 / 298.15 - Math.log(10_000) / 3950, b: 1 / 3950, c: 0 };
    fc.assert(
      fc.property(between(-40, 125), (celsius) => {
        expect(steinhartHartOhms(celsius, asCurve) / betaOhms(celsius, PART)).toBeCloseTo(1, 9);
      }),
    );
  });
});

type Three = [ThermistorPoint, ThermistorPoint, ThermistorPoint];
const makerPoints = (): Three => {
  const [cold, mild, hot] = [5, 25, 45].map((celsius) => ({
    celsius,
    ohms: steinhartHartOhms(celsius, MAKER),
  }));
  return [cold!, mild!, hot!];
};
const COLD = { celsius: 5, ohms: 25_925 };
const MILD = { celsius: 25, ohms: 10_000 };
const HOT = { celsius: 45, ohms: 4350 };

describe('the Steinhart–Hart fit', () => {
  it('Steinhart & Hart 1968: finds a, b and c again from 5, 25 and 45 °C, in any order', () => {
    const [cold, mild, hot] = makerPoints();
    for (const points of [
      [cold, mild, hot],
      [hot, cold, mild],
      [mild, hot, cold],
    ] satisfies Three[]) {
      const fit = steinhartHartThrough(points);
      if (fit.kind !== 'fitted') throw new Error(fit.kind);
      expect(fit.coefficients.a / MAKER.a).toBeCloseTo(1, 9);
      expect(fit.coefficients.b / MAKER.b).toBeCloseTo(1, 9);
      expect(fit.coefficients.c / MAKER.c).toBeCloseTo(1, 6);
    }
  });

  it('goes through its three points within 1e-8 °C, for any falling beta part with 3 % of error in each', () => {
    const error = between(0.97, 1.03);
    const run = fc.property(between(3000, 4500), fc.tuple(error, error, error), (betaKelvin, errors) => {
      const [cold, mild, hot] = [0, 25, 50].map((celsius, place) => ({
        celsius,
        ohms: betaOhms(celsius, { ohmsAt25: 10_000, betaKelvin }) * errors[place]!,
      }));
      const points: Three = [cold!, mild!, hot!];
      const fit = steinhartHartThrough(points);
      if (fit.kind !== 'fitted') throw new Error(fit.kind);
      for (const { celsius, ohms } of points) {
        expect(Math.abs(steinhartHartCelsius(ohms, fit.coefficients) - celsius)).toBeLessThan(1e-8);
      }
    });
    fc.assert(run);
  });

  // d(1/T)/d(ln R) = b + 3c·ln²R, least at the coldest point when c is below 0: c = −b/(k·ln²R) leaves it above 0 for
  // k over 3 only.
  it.each([
    [3.1, 'fitted'],
    [2.9, 'not-falling'],
  ])('Steinhart & Hart 1968: c of −1/%d of b over the coldest ln² R is %s', (divisor, kind) => {
    const ohms = [25_925, 10_000, 4350] as const;
    const b = 2e-3;
    const c = -b / (divisor * Math.log(ohms[0]) ** 2);
    const mild = Math.log(ohms[1]);
    const curve = { a: 1 / 298.15 - b * mild - c * mild ** 3, b, c };
    const at = (resistance: number): ThermistorPoint => ({
      celsius: steinhartHartCelsius(resistance, curve),
      ohms: resistance,
    });
    expect(steinhartHartThrough([at(ohms[0]), at(ohms[1]), at(ohms[2])]).kind).toBe(kind);
  });

  it('takes points exactly 5 °C apart and exactly 1 Ω', () => {
    const part = { ohmsAt25: 10_000, betaKelvin: 3950 };
    const near: Three = [
      { celsius: 20, ohms: betaOhms(20, part) },
      { celsius: 25, ohms: betaOhms(25, part) },
      { celsius: 30, ohms: betaOhms(30, part) },
    ];
    expect(steinhartHartThrough(near).kind).toBe('fitted');
    const hot = betaOhms(50, part);
    const low: Three = [
      { celsius: 0, ohms: betaOhms(0, part) / hot },
      { celsius: 25, ohms: 10_000 / hot },
      { celsius: 50, ohms: 1 },
    ];
    expect(steinhartHartThrough(low).kind).toBe('fitted');
  });

  it.each<[string, Three, string]>([
    ['the first two 4.9 °C apart', [COLD, { celsius: 9.9, ohms: 20_300 }, HOT], 'too-close'],
    ['the last two 4.9 °C apart', [COLD, MILD, { celsius: 29.9, ohms: 8000 }], 'too-close'],
    ['the first and the last 4.9 °C apart', [COLD, HOT, { celsius: 9.9, ohms: 20_300 }], 'too-close'],
    [
      'a hot point with more ohms than the mild one',
      [COLD, MILD, { celsius: 45, ohms: 10_001 }],
      'not-falling',
    ],
    ['two points of equal ohms', [COLD, MILD, { celsius: 45, ohms: 10_000 }], 'not-falling'],
    ['a curve that bends back at its hot end', [COLD, MILD, { celsius: 45, ohms: 9900 }], 'not-falling'],
    ['two cold points of equal ohms', [COLD, { celsius: 25, ohms: 25_925 }, HOT], 'not-falling'],
    ['the first and the last of equal ohms', [COLD, MILD, { celsius: 45, ohms: 25_925 }], 'not-falling'],
    ['0 Ω', [COLD, MILD, { celsius: 45, ohms: 0 }], 'impossible-point'],
    ['0.99 Ω', [COLD, MILD, { celsius: 45, ohms: 0.99 }], 'impossible-point'],
    ['an infinite temperature', [COLD, MILD, { celsius: Infinity, ohms: 4350 }], 'impossible-point'],
    ['infinite ohms', [{ celsius: 5, ohms: Infinity }, MILD, HOT], 'impossible-point'],
    ['a temperature that is no number', [COLD, { celsius: NaN, ohms: 10_000 }, HOT], 'impossible-point'],
    ['−273.15 °C', [{ celsius: -273.15, ohms: 25_925 }, MILD, HOT], 'impossible-point'],
  ])('refuses %s', (_, points, kind) => {
    expect(steinhartHartThrough(points)).toEqual({ kind });
  });
});
