import { describe, expect, it } from 'vitest';
import { accountOf } from '../../sim/oracle/account.ts';
import { SIXTY, sixtyDays, statesOf } from '../support/sixty-days.ts';

// Law 1 of the model over some hundred thousand steps. 1e-11 of the whole is some ten thousand roundings of 1.1e-16 each
// that all fall on one side.
const SHARE = 1e-11;

describe('60 days of four benches with floods, top-up, overflow, a leak, faults and new crops', () => {
  let water = 0;
  let salts = 0;
  let steps = 0;
  let before: ReturnType<typeof accountOf> | null = null;
  const { tank, benches } = sixtyDays(SIXTY, (state) => {
    const now = accountOf(state);
    before ??= now;
    water = Math.max(water, Math.abs(now.litres / before.litres - 1));
    salts = Math.max(salts, Math.abs(now.salts / before.salts - 1));
    steps += 1;
  }).state;

  it('keep their water to 1e-11 of the whole at every step', () => {
    expect(steps).toBeGreaterThan(90_000);
    expect(water).toBeLessThanOrEqual(SHARE);
  });

  it('keep their salts to 1e-11 of the whole at every step', () => {
    expect(salts).toBeLessThanOrEqual(SHARE);
  });

  it('moved over 100 L by each way of tank and leaves, 1 L from cups and 10 L with roots, so that the account was not idle', () => {
    const sum = (of: 'drunkLitres' | 'evaporatedLitres' | 'harvestedLitres'): number =>
      benches.reduce((litres, bench) => litres + bench[of], 0);
    expect(tank.toppedUpLitres).toBeGreaterThan(100);
    expect(tank.overflowedLitres).toBeGreaterThan(100);
    expect(tank.leakedLitres).toBeGreaterThan(100);
    expect(sum('drunkLitres')).toBeGreaterThan(100);
    // Cups are small and a harvest takes what stands in its roots: litres, not hundreds.
    expect(sum('evaporatedLitres')).toBeGreaterThan(1);
    expect(sum('harvestedLitres')).toBeGreaterThan(10);
  });

  it('give the same bits when they are run again', () => {
    expect(Buffer.from(statesOf(SIXTY).buffer).equals(Buffer.from(statesOf(SIXTY).buffer))).toBe(true);
  });
});
