import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { rehearseFarm, type RehearseOptions } from '../../firmware-host/cli/rehearse.ts';
import type { Rehearsal } from '../../firmware-host/cli/rehearsal.ts';
import { farmFromText } from '../../firmware-host/farm-file/read.ts';
import { SCENARIOS, type Outcome, type ScenarioName } from '../../firmware-host/simulated-shed.ts';
import { NO_TERMINAL } from '../support/no-terminal.ts';

/** What the words of each scenario promise, seen in the water, the salts and the alarms of the demo farm's central run. */
const RIBEIRA = 'docs/examples/ribeira.yaml';

const rehearsed = async (options: RehearseOptions): Promise<Rehearsal> => {
  const farm = farmFromText(readFileSync(RIBEIRA, 'utf8'), RIBEIRA);
  if (!farm.ok) throw new Error(JSON.stringify(farm.problems));
  return rehearseFarm(farm, { kind: 'hot-day' }, { ...options, draws: '0' }, 0, NO_TERMINAL);
};
const outcomeOf = ({ outcomes }: Rehearsal): Outcome => outcomes[0]!;
const lowest = ({ benches }: Outcome): readonly number[] => benches.map((bench) => bench.lowest.value);
const firstAlarm = ({ entries }: Outcome): string | undefined =>
  entries.flatMap((entry) => (entry.kind === 'alarm-raised' ? [entry.alarm] : []))[0];
/** Hours after midnight of the first day. */
const hour = ({ day }: Rehearsal, atMillis: number): number => (atMillis - day.start) / 3_600_000;

const plain = await rehearsed({});
const usual = outcomeOf(plain);

const DOES: Readonly<Record<ScenarioName, (rehearsal: Rehearsal, outcome: Outcome) => void>> = {
  'hot-afternoon': (_, outcome) => {
    expect(lowest(outcome)).toEqual(lowest(usual));
  },
  'heat-wave': (_, outcome) => {
    // The water is 4 °C warmer at least where the air is 5.
    for (const [place, bench] of outcome.benches.entries())
      expect(bench.warmest.value - usual.benches[place]!.warmest.value).toBeGreaterThan(4);
    expect(outcome.drunkLitres).toBeGreaterThan(5 * usual.drunkLitres * 1.1);
  },
  'pump-dead-worst': (rehearsal, outcome) => {
    const wilted = outcome.benches.flatMap(({ wiltedAtMillis }) => wiltedAtMillis ?? []);
    const left = Math.min(...usual.benches.map(({ timeLeft }) => timeLeft.minutes));
    expect((Math.min(...wilted) - rehearsal.faults[0]!.fromMillis) / 60_000).toBeCloseTo(left, -1);
  },
  'power-cut-night': (rehearsal, outcome) => {
    expect(firstAlarm(outcome)).toBe('missed-flood');
    // The day after is watched too, its crop a day older: it takes the benches lower than the night without floods.
    for (const { lowest: worst } of outcome.benches)
      expect(hour(rehearsal, worst.atMillis)).toBeGreaterThan(24 + 9);
  },
  'clogging-filter': (rehearsal, outcome) => {
    expect(firstAlarm(outcome)).toBe('return-lower');
    // Down to 0.88 of the flow after 3 of the 21 days; a slow decline must not pass for usual.
    expect(rehearsal.call!.firstAlarmAtMillis! - rehearsal.day.start).toBeLessThan(4 * 24 * 3_600_000);
    expect(Math.min(...lowest(outcome))).toBeLessThan(Math.min(...lowest(usual)) - 0.05);
  },
  'inlet-blocked': (rehearsal, outcome) => {
    const lefts = usual.benches.map(({ timeLeft }) => timeLeft.minutes);
    const thirstiest = lefts.indexOf(Math.min(...lefts));
    expect(rehearsal.faults[0]!.bench).toBe(thirstiest);
    const others = lowest(outcome).filter((_, place) => place !== thirstiest);
    expect(lowest(outcome)[thirstiest]).toBeLessThan(rehearsal.farm.floors.wilt);
    expect(Math.min(...others)).toBeGreaterThan(0.6);
    expect(firstAlarm(outcome)).toBe('return-lower');
    expect(rehearsal.advice).toEqual([expect.stringContaining('Walk the benches')]);
    expect(hour(rehearsal, rehearsal.faults[0]!.fromMillis)).toBe(9);
  },
  'branch-clogging': (rehearsal, outcome) => {
    const lefts = usual.benches.map(({ timeLeft }) => timeLeft.minutes);
    const clogged = rehearsal.faults[0]!.bench!;
    expect(lefts[clogged]).toBeLessThan(Math.min(...lefts) + 60);
    const others = lowest(outcome).filter((_, place) => place !== clogged);
    expect(lowest(outcome)[clogged]).toBeLessThan(Math.min(...others) - 0.1);
    // A common return that falls by less than a quarter is no weak flow, but lower than it used to be.
    expect(firstAlarm(outcome)).toBe('return-lower');
    expect(rehearsal.call!.silentRuns).toBe(0);
    expect(rehearsal.advice).toEqual([]);
  },
  'float-stuck': (_, outcome) => {
    expect(firstAlarm(outcome)).toBe('tank-low');
    expect(outcome.tankLitresLowest).toBeGreaterThan(300);
  },
  leak: (_, outcome) => {
    // The valve gives back what leaks away, without salts.
    expect(outcome.strength.end).toBeLessThan(0.7 * usual.strength.end);
  },
  'salty-top-up': (_, outcome) => {
    expect(outcome.strength.strongest).toBeGreaterThan(4);
  },
  'probe-drift': (_, outcome) => {
    // Three weeks of two per cent a day: 1.6 mS/cm become 1.6/0.6 at most, the first water after the dose a little less.
    expect(outcome.strength.strongest).toBeGreaterThan(2.4);
    expect(outcome.strength.strongest).toBeLessThan(1.6 / 0.58);
  },
  'seedlings-first-week': (_, outcome) => {
    expect(outcome.benches[0]!.drunkLitres).toBeLessThan(usual.benches[0]!.drunkLitres * 7);
    expect(outcome.benches[1]!.drunkLitres).toBeGreaterThan(usual.benches[1]!.drunkLitres * 6);
  },
  'water-shortage': (rehearsal, outcome) => {
    expect(firstAlarm(outcome)).toBe('tank-low');
    expect(outcome.tankLitresLowest).toBeLessThan(rehearsal.farm.tank.dryLitres + 10);
    expect(rehearsal.verdict.kind).toBe('may-wilt');
  },
};

describe('each scenario does what its words say', () => {
  it.each(Object.entries(SCENARIOS).map(([name, { says }]) => ({ name: name as ScenarioName, says })))(
    '$name: $says',
    async ({ name: scenario }) => {
      const rehearsal = await rehearsed({ scenario });
      expect(rehearsal.days).toBe(SCENARIOS[scenario].days);
      DOES[scenario](rehearsal, outcomeOf(rehearsal));
    },
    60_000,
  );
});
