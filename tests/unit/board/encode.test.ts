import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { linearCounts, openThermistor, probeCounts, thermistorCounts } from '../../../sim/board/encode.ts';
import type { Wiring } from '../../../src/farm/farm.ts';
import { TEN_K } from '../../support/wiring.ts';
import { between } from '../../support/between.ts';

type Thermistor = NonNullable<Wiring['airThermistor']>;
const TO_GROUND: Thermistor = { pin: 'A0', ...TEN_K };
const TO_REFERENCE: Thermistor = { ...TO_GROUND, wired: 'to-reference' };
/** Ohm's law turned round: the thermistor of a divider with 10 kΩ that gives these counts, to ground. */
const ohmsOf = (counts: number): number => (10_000 * counts) / (1024 - counts);

describe('a thermistor of 10 k and 3950 K with 10 kΩ', () => {
  it.each([
    [-10, 58_246],
    [0, 33_621],
    [10, 20_175],
    [20, 12_535],
    [30, 8037],
    [40, 5302],
    [50, 3588],
  ])('definition of B: at %d °C it has %d Ω', (celsius, ohms) => {
    expect(Math.abs(ohmsOf(thermistorCounts(celsius, TO_GROUND)) / ohms - 1)).toBeLessThan(2e-4);
  });

  it.each([
    [46.24, 300],
    [25, 512],
    [8.62, 700],
  ])(
    'R = 10k·n/(1024 − n): %d °C is count %d, or the rest of 1024 the other way round',
    (celsius, counts) => {
      expect(Math.abs(thermistorCounts(celsius, TO_GROUND) - counts)).toBeLessThan(0.1);
      expect(Math.abs(thermistorCounts(celsius, TO_REFERENCE) - (1024 - counts))).toBeLessThan(0.1);
    },
  );

  it('with a curve of its maker, Steinhart & Hart 1968: 15.001 °C is 15,881 Ω and 35.002 °C 6488 Ω', () => {
    const part = {
      ...TO_GROUND,
      steinhartHart: { a: 1.036859e-3, b: 2.515589e-4, c: 2.738594e-10 },
    };
    expect(Math.abs(ohmsOf(thermistorCounts(15.001, part)) - 15_881)).toBeLessThan(1);
    expect(Math.abs(ohmsOf(thermistorCounts(35.002, part)) - 6488)).toBeLessThan(1);
  });

  it('whose cable is cut reads the reference to ground, and ground to the reference', () => {
    expect([openThermistor(TO_GROUND), openThermistor(TO_REFERENCE)]).toEqual([1023, 0]);
  });

  it('stays between 0 and 1023 counts from −100 to 300 °C', () => {
    fc.assert(
      fc.property(between(-100, 300), (celsius) => {
        for (const part of [TO_GROUND, TO_REFERENCE]) {
          const counts = thermistorCounts(celsius, part);
          expect(counts >= 0 && counts <= 1023).toBe(true);
        }
      }),
    );
  });
});

describe('a straight line', () => {
  it('from 50 to 600 L: 0, 511.5 and 1023 counts at 50, 325 and 600 L, and no further', () => {
    expect([50, 325, 600].map((litres) => linearCounts(litres, 50, 600))).toEqual([0, 511.5, 1023]);
    expect([0, 700].map((litres) => linearCounts(litres, 50, 600))).toEqual([0, 1023]);
  });

  it('that falls, from 600 to 0 L: 1023 counts in an empty tank', () => {
    expect([600, 300, 0].map((litres) => linearCounts(litres, 600, 0))).toEqual([0, 511.5, 1023]);
  });
});

describe('a probe', () => {
  const PROBE = {
    pin: 'A2',
    fullScaleMicrosiemensPerCm: 4096,
    compensation: 'linear',
    percentPerKelvin: 2,
  } as const;
  const conducts = (millisiemensPerCmAt25: number, celsius: number): number =>
    4 * probeCounts(millisiemensPerCmAt25, celsius, PROBE);

  // PHREEQC 3 with phreeqc.dat, a lettuce solution of 2627.2 µS/cm at 25 °C; 1 % is what 2 %/K leaves of it.
  it.each([
    [15, 2102.3],
    [20, 2361.6],
    [25, 2627.2],
    [30, 2898.0],
  ])('PHREEQC: a lettuce solution of 2.627 mS/cm conducts %d °C: %d µS/cm', (celsius, microsiemens) => {
    expect(Math.abs(conducts(2.6272, celsius) / microsiemens - 1)).toBeLessThan(0.01);
  });

  // KCl grows by 1.9 % a degree and not by 2: over 10 K that leaves 1.5 %.
  it.each([
    [15, 1147],
    [20, 1278],
    [25, 1413],
    [30, 1552],
  ])('conductivity standard 1413 of a bench meter’s manual: at %d °C %d µS/cm', (celsius, microsiemens) => {
    expect(Math.abs(conducts(1.413, celsius) / microsiemens - 1)).toBeLessThan(0.015);
  });

  it('ends at the top of its range, and at nothing', () => {
    expect(probeCounts(9, 25, PROBE)).toBe(1023);
    expect([probeCounts(0, 25, PROBE), probeCounts(2, -100, PROBE)]).toEqual([0, 0]);
  });
});
