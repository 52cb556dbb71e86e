import { describe, expect, it } from 'vitest';
import { FAULTS, isFaultKind } from '../../../sim/faults/fault.ts';
import { unfittedFor } from '../../../sim/faults/unfitted.ts';
import { isScenarioName, SCENARIOS, scenarioOf, type Scenario } from '../../../sim/scenario/scenario.ts';
import { worstStart } from '../../../sim/scenario/worst-start.ts';
import { localDayOn } from '../../../src/time/local-day.ts';
import { exampleFarm, farmWith } from '../../support/farm.ts';
import { clock, outcome } from '../cli/made-rehearsal.ts';

const DAY = localDayOn('2026-07-15', 'Europe/Lisbon');
const WORST = clock('16:42');
const time = { day: DAY, worstStart: () => ({ atMillis: WORST, bench: 2 }) };
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

  it('blocks the inlet of the bench that lasts shortest, at 9:00', () => {
    expect(scenarioOf('inlet-blocked').faults(time)).toEqual([
      { kind: 'inlet-blocked', fromMillis: clock('09:00'), untilMillis: Infinity, bench: 2 },
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

  it('sets them into the second bench where the first stands empty', () => {
    const [first, ...others] = exampleFarm.benches;
    const bare = { ...exampleFarm, benches: [{ ...first!, plants: 0 }, ...others] };
    const farm = scenarioOf('seedlings-first-week').farm!(bare, DAY);
    expect(farm.benches.map(({ startedInPlace }) => startedInPlace)).toEqual([false, true, false, false]);
  });
});

describe('a scenario that would do nothing', () => {
  const bare = farmWith([['benches', 0, 'plants'], 0]);
  const unplanted = {
    ...exampleFarm,
    benches: exampleFarm.benches.map((bench) => ({ ...bench, plants: 0 })),
  };

  it('is told by what the farm lacks: seedlings need places on the first bench', () => {
    const { lacks } = scenarioOf('seedlings-first-week');
    expect(lacks?.(bare)).toContain('places for seedlings');
    expect(lacks?.(exampleFarm)).toBeNull();
  });

  it.each([
    ['float-stuck-low', farmWith([['evidence', 'tankFloat'], false]), 'tank float'],
    ['flow-stuck-high', farmWith([['evidence', 'returnFlow'], 'none']), 'return sensor'],
    ['air-open', farmWith([['sensors', 'airTemperature'], false]), 'air thermometer'],
    ['inlet-blocked', unplanted, 'plants on any bench'],
  ] as const)('%s: where nothing is there that could break', (kind, farm, says) => {
    expect(unfittedFor(farm, kind)).toContain(says);
  });

  it('is none where all is fitted and planted', () => {
    const all = farmWith([['evidence', 'tankFloat'], true]);
    for (const kind of Object.keys(FAULTS)) if (isFaultKind(kind)) expect(unfittedFor(all, kind)).toBeNull();
  });
});

describe('the flood that is missed the most', () => {
  it('is that of the planted bench that lasts shortest', () => {
    const made = outcome(exampleFarm, {});
    const benches = made.benches.map((bench, place) => ({
      ...bench,
      timeLeft: { minutes: 90 - place * 10, failedAtMillis: clock(`1${place}:00`) },
    }));
    expect(worstStart(exampleFarm, { ...made, benches })).toEqual({ atMillis: clock('13:00'), bench: 3 });
    const bare = {
      ...exampleFarm,
      benches: exampleFarm.benches.map((bench, place) => (place === 3 ? { ...bench, plants: 0 } : bench)),
    };
    expect(worstStart(bare, { ...made, benches })).toEqual({ atMillis: clock('12:00'), bench: 2 });
  });

  it('is none where no flood was started', () => {
    const made = outcome(exampleFarm, {});
    const benches = made.benches.map((bench) => ({ ...bench, timeLeft: { minutes: 0, failedAtMillis: 0 } }));
    expect(worstStart(exampleFarm, { ...made, benches })).toBeNull();
  });
});
