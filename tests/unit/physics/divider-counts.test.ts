import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dividerCounts } from '../../../src/physics/divider-counts.ts';
import { dividerReading } from '../../../src/physics/thermistor.ts';
import { between } from '../../support/between.ts';

describe('counts of a divider', () => {
  it('of two equal resistors are half of 1024, whichever way round', () => {
    for (const thermistor of ['to-ground', 'to-reference'] as const)
      expect(dividerCounts(10_000, { fixedOhms: 10_000, thermistor })).toBe(512);
  });

  it('of 30 kΩ to ground under 10 kΩ are 768 of 1024, of the same to the reference 256', () => {
    expect(dividerCounts(30_000, { fixedOhms: 10_000, thermistor: 'to-ground' })).toBe(768);
    expect(dividerCounts(30_000, { fixedOhms: 10_000, thermistor: 'to-reference' })).toBe(256);
    expect(dividerCounts(30_000, { fixedOhms: 10_000, thermistor: 'to-reference', bits: 12 })).toBe(1024);
  });

  it('lead back to the resistance that they came from', () => {
    fc.assert(
      fc.property(
        between(100, 500_000),
        between(500, 100_000),
        fc.constantFrom('to-ground' as const, 'to-reference' as const),
        (ohms, fixedOhms, thermistor) => {
          const counts = dividerCounts(ohms, { fixedOhms, thermistor });
          fc.pre(counts > 3 && counts < 1020);
          const reading = dividerReading(counts, { fixedOhms, thermistor });
          expect(reading.kind).toBe('resistance');
          if (reading.kind === 'resistance') expect(reading.ohms / ohms).toBeCloseTo(1, 9);
        },
      ),
    );
  });
});
