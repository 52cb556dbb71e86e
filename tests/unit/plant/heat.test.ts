import { describe, expect, it } from 'vitest';
import { benchCelsiusAfter } from '../../../sim/plant/heat.ts';
import { LETTUCE_TODAY } from '../../support/bench-today.ts';

interface Step {
  readonly celsius: number;
  readonly litres?: number;
  readonly inflow?: number;
  readonly inflowCelsius?: number;
  readonly airCelsius: number;
  readonly sun?: number;
  readonly minutes: number;
}
const BARE = { ...LETTUCE_TODAY, airExchangeLitresPerMinute: 3.3, pipeLitres: 16, sunWarming: 0.037 };

const after = (step: Step): number =>
  benchCelsiusAfter(
    step.celsius,
    BARE,
    step.litres ?? 24,
    step.inflow ?? 0,
    step.inflowCelsius ?? 0,
    step.airCelsius,
    step.sun ?? 0,
    step.minutes,
  );

// Equation 4 of the model, T' = [q(Tr − T) + u(Ta − T) + αG]/(x + v + Vp), with u 3.3, Vp 16 and α 0.037.
describe('the water of a bench', () => {
  it('comes to the air by e^(−u·t/(x + v + Vp)): 20 °C under 30 °C is 23.90 °C after 6 min with 24 L', () => {
    expect(after({ celsius: 20, airCelsius: 30, minutes: 6 })).toBeCloseTo(30 - 10 * Math.exp(-0.495), 10);
  });

  it('settles αG/u above still air: 10.1 °C at 900 W/m²', () => {
    const settled = after({ celsius: 20, airCelsius: 30, sun: 900, minutes: 1e4 });
    expect(settled).toBeCloseTo(30 + (0.037 * 900) / 3.3, 9);
  });

  it('settles in a flood of 10 L/min where flow, air and sun agree', () => {
    const settled = after({
      celsius: 35,
      inflow: 10,
      inflowCelsius: 22,
      airCelsius: 30,
      sun: 900,
      minutes: 1e4,
    });
    expect(settled).toBeCloseTo((10 * 22 + 3.3 * 30 + 0.037 * 900) / 13.3, 9);
  });

  it('is the same in one step of 10 min and in ten of 1 min', () => {
    const still = { airCelsius: 30, sun: 500, inflow: 4, inflowCelsius: 18 };
    let celsius = 20;
    for (let minute = 0; minute < 10; minute += 1) celsius = after({ celsius, ...still, minutes: 1 });
    expect(celsius).toBeCloseTo(after({ celsius: 20, ...still, minutes: 10 }), 10);
  });

  it('warms slower the more water there is', () => {
    const little = after({ celsius: 20, airCelsius: 30, litres: 5, minutes: 3 });
    const much = after({ celsius: 20, airCelsius: 30, litres: 60, minutes: 3 });
    expect(little).toBeGreaterThan(much);
    expect(much).toBeGreaterThan(20);
  });
});
