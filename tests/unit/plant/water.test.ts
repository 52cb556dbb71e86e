import { describe, expect, it } from 'vitest';
import { heldAfter, waterStep } from '../../../sim/plant/water.ts';
import { LETTUCE_TODAY } from '../../support/bench-today.ts';

// v' = r − Ep·min(1, v/10): the kink lies at 10 L.
const after = (held: number, refill: number, uptake: number, minutes: number): number =>
  heldAfter(held, refill, uptake, 10, minutes);

describe('held water under a constant refill', () => {
  it.each([
    ['falls straight above the kink: 20 L less 0.5 L/min are 15 L after 10 min', 20, 0, 0.5, 10, 15],
    ['rises straight above it: 12 L and 0.2 L/min net are 14 L after 10 min', 12, 0.5, 0.3, 10, 14],
    ['falls by e^(−t·Ep/10) below it: 8 L at 0.5 L/min are 8/e L after 20 min', 8, 0, 0.5, 20, 8 / Math.E],
    ['stands where refill and uptake agree: 5 L at r 0.25 and Ep 0.5', 5, 0.25, 0.5, 60, 5],
    ['stays without refill and uptake', 3, 0, 0, 60, 3],
    // 12 L are at the kink after 4 min and then have 20 min below it.
    ['falls through it: 12 L at 0.5 L/min are 10/e L after 24 min', 12, 0, 0.5, 24, 10 / Math.E],
    // v' = 1 − 0.05 v from 5 L: (20 − v) = 15·e^(−t/20); at the kink after 20·ln 1.5 min, then 0.5 L/min net.
    ['rises through it', 5, 1, 0.5, 20, 10 + 0.5 * (20 - 20 * Math.log(1.5))],
  ])('%s', (_, held, refill, uptake, minutes, expected) => {
    expect(after(held, refill, uptake, minutes)).toBeCloseTo(expected, 10);
  });

  it.each([1e-6, 1e-9, 1e-12, 1e-16, 1e-100, 1e-310])(
    'rises through the kink with next to no uptake, %d L/min, as it does with none: 9 L and 0.2 L/min are 11 L',
    (uptake) => {
      // The uptake takes at most 10 min of itself away.
      expect(Math.abs(after(9, 0.2, uptake, 10) - 11)).toBeLessThanOrEqual(10 * uptake + 1e-12);
    },
  );

  it('is the same in one step as in a hundred, through the kink both ways', () => {
    for (const [held, refill, uptake] of [
      [13, 0.1, 0.6],
      [4, 0.7, 0.3],
    ] as const) {
      let many: number = held;
      for (let step = 0; step < 100; step += 1) many = after(many, refill, uptake, 0.3);
      expect(many).toBeCloseTo(after(held, refill, uptake, 30), 10);
    }
  });
});

describe('one step of a bench', () => {
  it('shares what left the drainable water between drain and roots, and loses none', () => {
    const step = waterStep(LETTUCE_TODAY, 30, 15, 10, 0.2, 1);
    const { drainableLitres, heldLitres, drainedLitres, lostLitres } = step;
    expect(drainableLitres + heldLitres + drainedLitres + lostLitres).toBeCloseTo(30 + 15 + 10, 10);
    expect(lostLitres).toBeCloseTo(0.2, 10);
  });

  it('gives the roots nothing when they are full, and all of it to the drain', () => {
    const full = LETTUCE_TODAY.capacityLitres;
    const step = waterStep(LETTUCE_TODAY, 30, full, 0, 0, 1);
    expect(step.heldLitres).toBe(full);
    expect(step.drainedLitres).toBeCloseTo(30 - step.drainableLitres, 12);
  });

  it('refills by kr·(cap − v)·x/(x + Vw): 0.15 of the room a minute, times 30/35', () => {
    const held = LETTUCE_TODAY.capacityLitres - 8;
    const step = waterStep({ ...LETTUCE_TODAY, drainCoefficient: 0 }, 30, held, 0, 0, 0.001);
    expect((step.heldLitres - held) / 0.001).toBeCloseTo((0.15 * 8 * 30) / 35, 3);
  });
});
