import { describe, expect, it } from 'vitest';
import { isScenarioName, SCENARIOS, scenarioOf, type Scenario } from '../../../sim/scenario/scenario.ts';
import { worstStart } from '../../../sim/scenario/worst-start.ts';
import { localDayOn } from '../../../src/time/local-day.ts';
import { exampleFarm } from '../../support/farm.ts';
import { clock, outcome } from '../cli/made-rehearsal.ts';

const DAY = localDayOn('2026-07-15', 'Europe/Lisbon');
const WORST = clock('16:42');
const time = { day: DAY, worstStart: () => WORST };
const ALL: readonly (readonly [string, Scenario])[] = Object.entries(SCENARIOS);

describe('each scenario', () => {
  it.each(ALL)(
    '%s says what happens, in at most three weeks, and breaks something only after its start',
    (_, scenario) => {
      expect(scenario.says).toMatch(/^[a-z].{15,75}[a-z0-9]$/);
      expect(scenario.days).toBeGreaterThanOrEqual(1);
      expect(scenario.days).toBeLessThanOrEqual(21);
      for (const { fromMillis, untilMillis } of scenario.faults(time)) {
        expect(fromMillis).toBeGreaterThanOrEqual(DAY.start);
        expect(fromMillis).toBeLessThan(DAY.end);
        expect(untilMillis).toBeGreaterThan(fromMillis);
      }
    },
  );

  it('is found by its name and by no other', () => {
    expect(isScenarioName('heat-wave')).toBe(true);
    for (const name of ['', 'Heat-wave', 'toString', 'constructor']) expect(isScenarioName(name)).toBe(false);
  });
});

describe('what they do', () => {
  it('kills the pump a second before the flood that is missed the most', () => {
    expect(scenarioOf('pump-dead-worst').faults(time)).toEqual([
      { kind: 'pump-dead', fromMillis: WORST - 1000, untilMillis: Infinity },
    ]);
  });

  it('cuts the mains from 22:00 to 6:00 by the local clock', () => {
    expect(scenarioOf('power-cut-night').faults(time)).toEqual([
      { kind: 'mains-lost', fromMillis: clock('22:00'), untilMillis: clock('06:00', '2026-07-16') },
    ]);
  });

  it('sets seedlings of two days into the first bench, and leaves the others', () => {
    const farm = scenarioOf('seedlings-first-week').farm!(exampleFarm, DAY);
    expect(farm.benches[0]).toMatchObject({ sown: '2026-07-13', startedInPlace: true });
    expect(farm.benches.slice(1)).toEqual(exampleFarm.benches.slice(1));
  });
});

describe('the flood that is missed the most', () => {
  it('is that of the planted bench that lasts shortest', () => {
    const made = outcome(exampleFarm, {});
    const benches = made.benches.map((bench, place) => ({
      ...bench,
      timeLeft: { minutes: 90 - place * 10, failedAtMillis: clock(`1${place}:00`) },
    }));
    expect(worstStart(exampleFarm, { ...made, benches })).toBe(clock('13:00'));
    const bare = {
      ...exampleFarm,
      benches: exampleFarm.benches.map((bench, place) => (place === 3 ? { ...bench, plants: 0 } : bench)),
    };
    expect(worstStart(bare, { ...made, benches })).toBe(clock('12:00'));
  });

  it('is none where no flood was started', () => {
    const made = outcome(exampleFarm, {});
    const benches = made.benches.map((bench) => ({ ...bench, timeLeft: { minutes: 0, failedAtMillis: 0 } }));
    expect(worstStart(exampleFarm, { ...made, benches })).toBeNull();
  });
});
