import { describe, expect, it } from 'vitest';
import { dose, nextVisit, topUpByHand } from '../../../sim/run/grower.ts';
import type { Plant } from '../../../sim/plant/plant.ts';
import { accountOf } from '../../../sim/oracle/account.ts';
import { air, LETTUCE, plantBuild, rested, START, steadySky } from '../../support/plant.ts';
import { farmWith } from '../farm/example.ts';

// The example farm fills by hand to 520 L with water of 0.3 mS/cm, at 7:00 on the clocks of Lisbon.
const byHand = farmWith();
const NO_DOSE = { doses: false };

describe('the simulated grower comes at 7:00', () => {
  it.each([
    ['the same day, seen from midnight', '2026-07-14T00:00:00+01:00', '2026-07-14T07:00:00+01:00'],
    ['the same day, a millisecond before', '2026-07-14T06:59:59.999+01:00', '2026-07-14T07:00:00+01:00'],
    ['the next day, once it is 7:00', '2026-07-14T07:00:00+01:00', '2026-07-15T07:00:00+01:00'],
    ['the next day, seen from the evening', '2026-07-14T22:30:00+01:00', '2026-07-15T07:00:00+01:00'],
    ['an hour sooner by UTC when the clocks go forward', '2026-03-28T12:00:00Z', '2026-03-29T06:00:00Z'],
    ['an hour later by UTC when they go back', '2026-10-24T12:00:00+01:00', '2026-10-25T07:00:00Z'],
  ])('%s', (_, from, expected) => {
    expect(new Date(nextVisit(byHand, Date.parse(from), NO_DOSE)).toISOString()).toBe(
      new Date(expected).toISOString(),
    );
  });

  it('also where a float valve does the work, when the tank is to be dosed', () => {
    const valve = farmWith([['tank', 'topUp'], { floatValveAtLitres: 300, litresPerMinute: 8 }]);
    expect(nextVisit(valve, Date.parse('2026-07-14T00:00:00+01:00'), { doses: true })).toBe(
      Date.parse('2026-07-14T07:00:00+01:00'),
    );
  });

  it('and never where a float valve does the work', () => {
    const valve = farmWith([['tank', 'topUp'], { floatValveAtLitres: 300, litresPerMinute: 8 }]);
    expect(nextVisit(valve, Date.parse('2026-07-14T00:00:00Z'), NO_DOSE)).toBe(Infinity);
  });
});

describe('the top-up by hand', () => {
  const shedWith = (tankLitres: number, drainableLitres: number): Plant => {
    const plant = rested(plantBuild([LETTUCE, LETTUCE]), steadySky(air(20, 2, 0)), { tankLitres });
    for (const bench of plant.state.benches) bench.drainableLitres = drainableLitres;
    return plant;
  };

  it.each([
    ['fills 400 L to the usual 520', 400, 0, 520],
    ['leaves room for the 40 L of each bench that will run back', 400, 40, 440],
    ['adds nothing to 540 L', 540, 0, 540],
    ['adds nothing when what stands in the channels will fill it', 460, 40, 460],
  ])('%s', (_, before, standing, after) => {
    const plant = shedWith(before, standing);
    topUpByHand(byHand, plant, 20);
    expect(plant.state.tank.litres).toBe(after);
    expect(plant.state.tank.toppedUpLitres).toBe(after - before);
  });

  it('brings 0.3 mS/cm: 120 L make 400 L of 1.6 into 520 L of 1.3', () => {
    const plant = shedWith(400, 0);
    topUpByHand(byHand, plant, 20);
    const { salts, litres, saltsLost } = plant.state.tank;
    expect(salts / litres).toBeCloseTo(1.3, 10);
    expect(saltsLost).toBeCloseTo(-36, 10);
  });
});

describe('the temperature of the tank', () => {
  it('is that of the mixture: 120 L at 32 °C make 400 L of 20 °C into 520 L of 22.77 °C; a full tank keeps its own', () => {
    const mixed = (tankLitres: number): number => {
      const plant = rested(plantBuild([LETTUCE]), steadySky(air(32, 2, 0)), { tankLitres, celsius: 20 });
      topUpByHand(byHand, plant, 32);
      return plant.state.tank.celsius;
    };
    expect(mixed(400)).toBeCloseTo((400 * 20 + 120 * 32) / 520, 12);
    expect(mixed(540)).toBe(20);
  });
});

describe('the dose of the morning', () => {
  const DRIFT = { kind: 'probe-drifting', fromMillis: START, untilMillis: Infinity } as const;
  const tankOf = (millisiemensPerCm: number, days = 0): Plant => {
    const plant = rested(plantBuild([LETTUCE]), steadySky(air(20, 2, 0)), { millisiemensPerCm });
    plant.state.atMillis += days * 86_400_000;
    return plant;
  };
  const strength = ({ state: { tank } }: Plant): number => tank.salts / tank.litres;

  it('brings a tank of 1.2 mS/cm to the usual 1.6, and takes nothing out of one of 2', () => {
    const weak = tankOf(1.2);
    dose(byHand, weak, []);
    expect(strength(weak)).toBeCloseTo(1.6, 10);
    const strong = tankOf(2);
    dose(byHand, strong, []);
    expect(strength(strong)).toBeCloseTo(2, 10);
  });

  it('by a probe that has drifted for 10 days, a fifth too low, makes 2 mS/cm of 1.6', () => {
    const plant = tankOf(1.6, 10);
    dose(byHand, plant, [DRIFT]);
    expect(strength(plant)).toBeCloseTo(2, 10);
  });

  it('is in the account: salts given count as not lost', () => {
    const plant = tankOf(1.2);
    const before = accountOf(plant.state).salts;
    dose(byHand, plant, []);
    expect(accountOf(plant.state).salts).toBeCloseTo(before, 9);
  });
});
