import { describe, expect, it } from 'vitest';
import type { TankBuild } from '../../../sim/plant/build.ts';
import { CENTRAL } from '../../../sim/plant/judgements.ts';
import { UNBROKEN, type PlantFaults, type TankState } from '../../../sim/plant/state.ts';
import { stepTank, type Returned } from '../../../sim/plant/tank.ts';
import {
  air,
  DAY_MINUTES,
  evenFloods,
  flooded,
  LETTUCE,
  plantBuild,
  rested,
  steadySky,
} from '../../support/plant.ts';

const VALVE = { kind: 'float-valve', closesAtLitres: 500, litresPerMinute: 4 } as const;
const BUILD: TankBuild = { brimLitres: 600, dryLitres: 60, topUp: VALVE, topUpMillisiemensPerCm: 0.3 };
const BY_HAND: TankBuild = { ...BUILD, topUp: { kind: 'by-hand' } };

interface Step {
  readonly build?: TankBuild;
  readonly litres?: number;
  readonly celsius?: number;
  readonly pumped?: number;
  readonly returned?: Returned;
  readonly leak?: number;
  readonly floor?: number;
  readonly faults?: Partial<PlantFaults>;
  readonly airCelsius?: number;
  readonly minutes?: number;
}

/** A tank of 1.6 mS/cm after one step. */
const after = (step: Step): TankState => {
  const litres = step.litres ?? 550;
  const tank: TankState = {
    litres,
    celsius: step.celsius ?? 20,
    salts: litres * 1.6,
    toppedUpLitres: 0,
    overflowedLitres: 0,
    leakedLitres: 0,
    floorLitres: step.floor ?? 0,
    saltsLost: 0,
  };
  const nothing: Returned = { litres: 0, salts: 0, litresCelsius: 0 };
  stepTank(
    tank,
    step.build ?? BUILD,
    step.pumped ?? 0,
    step.returned ?? nothing,
    { ...UNBROKEN, leakLitresPerMinute: step.leak ?? 0, ...step.faults },
    step.airCelsius ?? 20,
    CENTRAL.tankExchangeLitresPerMinute,
    step.minutes ?? 1,
  );
  return tank;
};

describe('the float valve that closes at 500 L', () => {
  it('gives nothing when the water is cut off, and a third of its 4 L where a third still comes', () => {
    expect(after({ litres: 400, faults: { topUpShare: 0 } }).litres).toBe(400);
    expect(after({ litres: 400, faults: { topUpShare: 1 / 3 } }).litres).toBeCloseTo(400 + 4 / 3, 9);
  });

  it('brings 2 mS/cm more where the water is that much saltier: 4 L of 2.3 instead of 0.3', () => {
    const salts = (topUpSaltier: number): number => after({ litres: 400, faults: { topUpSaltier } }).salts;
    expect(salts(2) - salts(0)).toBeCloseTo(8, 9);
  });

  it('gives its 4 L in a minute at 400 L, nothing at 500 L and nothing above', () => {
    expect(after({ litres: 400 }).toppedUpLitres).toBe(4);
    expect(after({ litres: 500 }).toppedUpLitres).toBe(0);
    expect(after({ litres: 550 }).toppedUpLitres).toBe(0);
  });

  it('half shut at 497.5 L gives 2 L a minute, and never fills past 500 L', () => {
    expect(after({ litres: 497.5, minutes: 0.001 }).toppedUpLitres / 0.001).toBeCloseTo(2, 2);
    const filled = after({ litres: 497.5, minutes: 600 });
    expect(filled.litres).toBeLessThanOrEqual(500);
    expect(filled.litres).toBeGreaterThan(499.999);
    expect(after({ litres: 480, minutes: 30 }).litres).toBeLessThanOrEqual(500);
  });

  it('brings its own 0.3 mS/cm: 4 L make 400 L weaker, by 4 · 1.3 in 404', () => {
    const tank = after({ litres: 400 });
    expect(tank.salts).toBeCloseTo(400 * 1.6 + 4 * 0.3, 10);
    expect(tank.saltsLost).toBeCloseTo(-4 * 0.3, 10);
  });

  it('by hand there is none: 100 L stay 100 L for an hour', () => {
    expect(after({ build: BY_HAND, litres: 100, minutes: 60 }).litres).toBe(100);
  });
});

describe('the tank', () => {
  it('loses what stands above the brim of 600 L, with its salts', () => {
    const tank = after({ litres: 590, returned: { litres: 30, salts: 48, litresCelsius: 600 } });
    expect(tank.litres).toBe(600);
    expect(tank.overflowedLitres).toBeCloseTo(20, 10);
    expect(tank.salts).toBeCloseTo(600 * 1.6, 9);
    expect(tank.saltsLost).toBeCloseTo(20 * 1.6, 9);
  });

  it('leaks 1 L a minute, and never more than there is', () => {
    expect(after({ build: BY_HAND, leak: 1, minutes: 5 }).litres).toBeCloseTo(545, 10);
    const empty = after({ build: BY_HAND, litres: 3, leak: 1, minutes: 5 });
    expect(empty.litres).toBe(0);
    expect(empty.leakedLitres).toBe(3);
    expect(empty.salts).toBeCloseTo(0, 10);
  });

  it('leaves 60 L on the floor e times less after a quarter of an hour, and less than a litre after an hour and 5 min', () => {
    expect(after({ floor: 60, minutes: 15 }).floorLitres).toBeCloseTo(60 / Math.E, 9);
    expect(after({ floor: 60, minutes: 65 }).floorLitres).toBeLessThan(1);
  });

  it('that leaks 1 L a minute keeps 15 L on the floor, and what a blocked return spills lies there too', () => {
    expect(after({ leak: 1, minutes: 300 }).floorLitres).toBeCloseTo(15, 6);
    const spilt = after({
      returned: { litres: 8, salts: 12, litresCelsius: 160 },
      faults: { returnShare: 0.25 },
    });
    expect(spilt.leakedLitres).toBeCloseTo(6, 12);
    expect(spilt.floorLitres).toBeCloseTo(6 * 15 * (1 - Math.exp(-1 / 15)), 9);
  });

  it('comes to the air by 0.25 L a minute of its litres: 550 L at 20 °C gain 0.27 °C in an hour under 30 °C', () => {
    // e^(−0.25·60/550) of the 10 °C are left.
    const tank = after({ build: BY_HAND, airCelsius: 30, minutes: 60 });
    expect(tank.celsius).toBeCloseTo(30 - 10 * Math.exp(-15 / 550), 9);
  });

  it('mixes warm return in: 10 L of 30 °C into 540 L of 20 °C make 20.18 °C', () => {
    const returned = { litres: 10, salts: 16, litresCelsius: 300 };
    const tank = after({ build: BY_HAND, litres: 550, pumped: 10, returned });
    expect(Math.abs(tank.celsius - (540 * 20 + 300) / 550)).toBeLessThan(0.005);
  });
});

/** A rested bench of lettuce in the dark, a valve of 4 L a minute and a brim of 600 L: 11 floods of 20 min. */
const dayOfFloods = (closesAtLitres: number): TankState => {
  const build = plantBuild([LETTUCE, LETTUCE], {
    brimLitres: 600,
    topUp: { ...VALVE, closesAtLitres },
  });
  const plant = rested(build, steadySky(air(20, 2.4, 0)), { tankLitres: 595 });
  flooded(plant, evenFloods(11, 120, 20), DAY_MINUTES);
  return plant.state.tank;
};

describe('the trap of the float valve: two benches hold 80 L back in a flood', () => {
  it('a valve set at 590 L of 600 tops up at each of 11 floods and overflows when they drain back', () => {
    const tank = dayOfFloods(590);
    // At each flood the level lies below 585 L for more than 20 min, 4 L a minute.
    expect(tank.toppedUpLitres).toBeGreaterThan(11 * 50);
    expect(tank.overflowedLitres).toBeGreaterThan(11 * 50);
    expect(tank.salts / tank.litres).toBeLessThan(1.2);
  });

  it('one set at 500 L, below what a flood leaves, lets nothing in and nothing out', () => {
    const tank = dayOfFloods(500);
    expect(tank.toppedUpLitres).toBe(0);
    expect(tank.overflowedLitres).toBe(0);
    expect(Math.abs(tank.salts / tank.litres - 1.6)).toBeLessThan(0.005);
  });
});
