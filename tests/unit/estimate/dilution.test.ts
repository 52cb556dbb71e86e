import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { strengthRemedy, type StrengthRemedy } from '../../../src/estimate/dilution.ts';
import { exampleFarm } from '../../support/farm.ts';

const remedy = (
  loopLitres: number,
  strength: number,
  { water = 0.3, brim = 600 }: { readonly water?: number; readonly brim?: number } = {},
): StrengthRemedy =>
  strengthRemedy(
    {
      tank: {
        ...exampleFarm.tank,
        litres: brim,
        strengthMillisiemensPerCm: 1.6,
        topUpMillisiemensPerCm: water,
      },
    },
    { tankLitres: loopLitres, loopLitres },
    strength,
  );

describe('a solution that is too strong', () => {
  it('of 400 L and 2.2 mS/cm is usual with 184.6 L of 0.3 mS/cm more', () => {
    expect(remedy(400, 2.2)).toEqual({ kind: 'add-water', litres: expect.closeTo(184.615, 3) as number });
  });

  it('of 500 L in a tank of 600 L and 2.6 mS/cm has no room for 384.6 L: 217.4 L go out and in', () => {
    expect(remedy(500, 2.6)).toEqual({ kind: 'swap-water', litres: expect.closeTo(217.391, 3) as number });
  });

  it('comes to the usual strength exactly by the balance of salts, and is never drained for it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 50, max: 600, noNaN: true }),
        fc.double({ min: 1.7, max: 10, noNaN: true }),
        fc.double({ min: 0, max: 1.5, noNaN: true }),
        (litres, strength, water) => {
          const found = remedy(litres, strength, { water });
          if (found.kind !== 'add-water' && found.kind !== 'swap-water') throw new Error(found.kind);
          const out = found.kind === 'swap-water' ? found.litres : 0;
          const after = litres - out + found.litres;
          expect(out).toBeLessThan(litres);
          expect(after).toBeLessThanOrEqual(600.001);
          expect(((litres - out) * strength + found.litres * water) / after).toBeCloseTo(1.6, 9);
        },
      ),
    );
  });

  it('cannot be diluted with water of 1.6 mS/cm or more', () => {
    expect(remedy(400, 2.6, { water: 1.6 })).toEqual({ kind: 'no-water' });
    expect(remedy(400, 2.6, { water: 2.3 })).toEqual({ kind: 'no-water' });
  });
});
