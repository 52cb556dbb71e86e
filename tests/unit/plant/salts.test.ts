import { describe, expect, it } from 'vitest';
import { saltStep, type SaltStep } from '../../../sim/plant/salts.ts';
import type { WaterStep } from '../../../sim/plant/water.ts';
import { LETTUCE_TODAY } from '../../support/bench-today.ts';

interface Moved {
  readonly litres: number;
  readonly strength: number;
  readonly inflow?: number;
  readonly inflowStrength?: number;
  readonly drained?: number;
  readonly drunk?: number;
  readonly minutes?: number;
}

/** One step of a bench whose water goes as told. */
const step = (moved: Moved, today = LETTUCE_TODAY): SaltStep & { readonly litres: number } => {
  const { litres, strength, inflow = 0, drained = 0, drunk = 0, minutes = 1 } = moved;
  const end = litres + inflow - drained - drunk;
  const water: WaterStep = {
    drainableLitres: 0,
    heldLitres: end,
    drainedLitres: drained,
    refilledLitres: 0,
    lostLitres: drunk,
  };
  const inflowSalts = (inflow * (moved.inflowStrength ?? 1.6)) / minutes;
  const salts = saltStep(litres * strength, today, { litres }, water, drunk, inflowSalts, minutes);
  return { ...salts, litres: end };
};

describe('the salts of a bench', () => {
  it('are taken up as E·cu·EC/(Ke + EC): 0.1 L drunk at 1.6 mS/cm takes 0.122', () => {
    // 0.1 · 1.6 · 1.6/2.1 with cu 1.6 and Ke 0.5 of the model.
    expect(step({ litres: 20, strength: 1.6, drunk: 0.1 }).takenUp).toBeCloseTo((0.16 * 1.6) / 2.1, 3);
  });

  it('are taken up with the figures of the bench: cu 2.2 and Ke 0.2 take 0.196', () => {
    const greedy = { ...LETTUCE_TODAY, saltUptake: 2.2, saltHalfStrength: 0.2 };
    const { takenUp } = step({ litres: 20, strength: 1.6, drunk: 0.1 }, greedy);
    expect(takenUp).toBeCloseTo((0.22 * 1.6) / 1.8, 3);
  });

  it('grow stronger where plants drink from strong water, weaker where they drink from weak', () => {
    // A litre drunk takes cu·EC/(Ke + EC) with it: above cu − Ke = 1.1 mS/cm that is less than it held.
    const strength = (of: number): number => {
      const end = step({ litres: 20, strength: of, drunk: 1 });
      return end.salts / end.litres;
    };
    expect(strength(2)).toBeGreaterThan(2);
    expect(strength(1.3)).toBeGreaterThan(1.3);
    expect(strength(0.9)).toBeLessThan(0.9);
    expect(strength(0.3)).toBeLessThan(0.3);
  });

  it('leave with the drain at the strength of the bench: 1 L of 1.6 mS/cm carries 1.6', () => {
    const end = step({ litres: 40, strength: 1.6, drained: 1 });
    expect(end.returned).toBeCloseTo(1.6, 3);
    expect(end.takenUp).toBeCloseTo(0, 12);
  });

  it('come with the flood, and what came is there, gone back or drunk', () => {
    const end = step({
      litres: 20,
      strength: 1,
      inflow: 10,
      inflowStrength: 2,
      drained: 3,
      drunk: 0.2,
      minutes: 2,
    });
    expect(end.salts + end.returned + end.takenUp).toBeCloseTo(20 + 20, 10);
    expect(end.salts / end.litres).toBeGreaterThan(1.2);
    expect(end.salts / end.litres).toBeLessThan(1.5);
  });

  it('stay as they are in a bench without water, and divide by nothing', () => {
    const dry = step({ litres: 0, strength: 0 });
    expect(dry).toMatchObject({ salts: 0, returned: 0, takenUp: 0 });
  });
});
