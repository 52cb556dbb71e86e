import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { noWaterStep, waterStep } from '../../../sim/plant/water.ts';
import { waterTable } from '../../../sim/tune/water-table.ts';
import type { BenchToday } from '../../../sim/plant/bench.ts';
import { anyBenchToday } from '../../support/bench-today.ts';
import { between } from '../../support/between.ts';

interface Course {
  readonly theta: number;
  readonly drainable: number;
}

/** The plant's equations in steps of a twentieth of a minute. */
const finely = (
  today: BenchToday,
  start: { readonly litres: number; readonly theta: number },
  inflow: number,
  uptake: number,
  minutes: number,
): Course => {
  const water = noWaterStep();
  water.drainableLitres = start.litres;
  water.heldLitres = start.theta * today.capacityLitres;
  const steps = Math.ceil(minutes * 20);
  for (let step = 0; step < steps; step += 1)
    waterStep(
      today,
      water.drainableLitres,
      water.heldLitres,
      inflow,
      uptake * today.capacityLitres,
      minutes / steps,
      water,
    );
  return { theta: water.heldLitres / today.capacityLitres, drainable: water.drainableLitres };
};

const anyAsked = fc.record({
  today: anyBenchToday,
  uptakeMax: between(0.0005, 0.01),
  uptakeShare: between(0, 1),
  theta: between(0, 1),
  minutes: between(0, 90),
  inflowPerCapacity: between(0.2, 3),
});

describe('a table of held water', () => {
  it('of a flood into empty channels tells θ as fine steps do, within a point, from any start at any uptake', () => {
    fc.assert(
      fc.property(anyAsked, ({ today, uptakeMax, uptakeShare, theta, minutes, inflowPerCapacity }) => {
        const inflow = Math.min(20, inflowPerCapacity * today.capacityLitres);
        const table = waterTable(today, {
          startLitres: 0,
          inflowLitresPerMinute: inflow,
          minutes: 60,
          uptakeMax,
        });
        const at = Math.min(60, minutes);
        const uptake = uptakeShare * uptakeMax;
        const { theta: fine } = finely(today, { litres: 0, theta }, inflow, uptake, at);
        expect(Math.abs(table.theta(theta, uptake, at) - fine)).toBeLessThan(0.01);
      }),
      { numRuns: 60 },
    );
  });

  it('of a drain tells θ within a point and a half, and what is left within a twentieth of the start', () => {
    fc.assert(
      fc.property(anyAsked, ({ today, uptakeMax, uptakeShare, theta, minutes }) => {
        const startLitres = (10 / today.drainCoefficient) ** (1 / today.drainExponent);
        const asked = { startLitres, inflowLitresPerMinute: 0, minutes: 90, uptakeMax };
        const table = waterTable(today, asked);
        const uptake = uptakeShare * uptakeMax;
        const fine = finely(today, { litres: startLitres, theta }, 0, uptake, minutes);
        expect(Math.abs(table.theta(theta, uptake, minutes) - fine.theta)).toBeLessThan(0.015);
        expect(Math.abs(table.drainable(theta, uptake, minutes) - fine.drainable)).toBeLessThan(
          0.05 * startLitres,
        );
      }),
      { numRuns: 60 },
    );
  });

  it('gives back its starts at minute 0, and its last moment for any later one', () => {
    fc.assert(
      fc.property(anyBenchToday, between(0, 1), (today, theta) => {
        const asked = { startLitres: 12, inflowLitresPerMinute: 0, minutes: 60, uptakeMax: 0.005 };
        const table = waterTable(today, asked);
        expect(table.theta(theta, 0.002, 0)).toBeCloseTo(theta, 9);
        expect(table.drainable(theta, 0.002, 0)).toBeCloseTo(12, 9);
        expect(table.minutesMax).toBe(60);
        expect(table.theta(theta, 0.002, 500)).toBe(table.theta(theta, 0.002, 60));
      }),
      { numRuns: 20 },
    );
  });
});
