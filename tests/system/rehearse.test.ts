import { describe, expect, it } from 'vitest';
import { farmTextWith, linesOf, ownFolder, RIBEIRA, rillkeeper, written } from './rillkeeper.ts';

interface Bench {
  readonly bench: string;
  readonly lowestHeldPercent: number;
  readonly lowestHeldPercentWorst: number;
  readonly timeLeftMinutes: number;
  readonly timeLeftMinutesWorst: number;
}

interface Data {
  readonly seed: number;
  readonly runs: number;
  readonly drunkLitres: number;
  readonly advice: readonly string[];
  readonly verdict: { readonly kind: string; readonly says: string };
  readonly benches: readonly Bench[];
}

/** Every number of the data with the names that lead to it. */
const numbersIn = (value: unknown, path: string): readonly string[] => {
  if (typeof value === 'number') return [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    numbersIn(inner, Array.isArray(value) ? path : `${path}.${key}`),
  );
};

const UNIT = /Minutes|Percent|Points|Celsius|Litres|pumpHours|kilowattHours|MillisiemensPerCm/;
const COUNTS = ['.seed', '.runs', '.floodsByPart.floods', '.floodsByPart.notConfirmed'];

const json = await rillkeeper('rehearse', RIBEIRA, '--draws', '1', '--json');
const data = JSON.parse(json.stdout) as Data;

describe('rehearse', () => {
  it('--json parses, with the verdict in a word and in words', () => {
    expect(data.runs).toBe(2);
    expect(['holds', 'holds-unless-missed', 'may-wilt']).toContain(data.verdict.kind);
    expect(data.verdict.says).toMatch(/\w+.*\.$/);
  });

  it('--json has a unit in the name of every number that is no count', () => {
    const bare = numbersIn(data, '').filter((path) => !UNIT.test(path) && !COUNTS.includes(path));
    expect(bare).toEqual([]);
    expect(numbersIn(data, '').length).toBeGreaterThan(40);
  });

  it('the worst of all runs is never better than the central run', () => {
    expect(data.benches).toHaveLength(4);
    for (const bench of data.benches) {
      expect(bench.lowestHeldPercentWorst).toBeLessThanOrEqual(bench.lowestHeldPercent);
      expect(bench.timeLeftMinutesWorst).toBeLessThanOrEqual(bench.timeLeftMinutes);
    }
  });

  it('exits 0 where no bench may wilt', () => {
    expect(data.verdict.kind).not.toBe('may-wilt');
    expect(json.code).toBe(0);
  });

  it('exits 1 where the tank holds 150 L, filled once a day, and the crop drinks more; it speaks of the tank', async () => {
    expect(data.drunkLitres).toBeGreaterThan(2 * 150);
    const { text } = farmTextWith('usualLitres: 560', 'usualLitres: 150');
    const byHand = text.replace(/topUp: \{.*\}.*/, 'topUp: by-hand');
    const file = written(ownFolder(), 'small-tank.yaml', byHand);
    const dry = await rillkeeper('rehearse', file, '--draws', '0', '--json');
    expect(dry.code).toBe(1);
    const { verdict, advice } = JSON.parse(dry.stdout) as Data;
    expect(verdict.kind).toBe('may-wilt');
    expect(advice).toEqual([expect.stringContaining('The tank runs low')]);
  });

  it('as text says the same verdict, each bench on one line, and nothing on stderr', async () => {
    const { stdout, stderr, code } = await rillkeeper('rehearse', RIBEIRA, '--draws', '1');
    expect(code).toBe(json.code);
    expect(stderr).toBe('');
    expect(stdout.replaceAll(/\s+/g, ' ')).toContain(data.verdict.says);
    for (const { bench } of data.benches) {
      // Lowest held, when, longest rest, time left and when, one-miss margin, warmest water.
      const row =
        /^ +\d+ % \(\d+\) +\d\d:\d\d +\d+ (?:h \d\d|min) +\S.*\) \d\d:\d\d +[+−]\d+ \([+−]\d+\) +\d+ \(\d+\)$/;
      const rows = linesOf(stdout).filter(
        (line) => line.startsWith(bench) && row.test(line.slice(bench.length)),
      );
      expect(rows).toHaveLength(1);
    }
  });

  it('keeps its lines within 100 columns where no terminal says otherwise', async () => {
    for (const more of [[], ['--fault', 'pump-dead@13:00']]) {
      const { stdout } = await rillkeeper('rehearse', RIBEIRA, '--draws', '0', ...more);
      expect(linesOf(stdout).filter((line) => line.length > 100)).toEqual([]);
    }
  });

  it('gives the same bytes for the same seed, and other numbers for another', async () => {
    const of = async (seed: string): Promise<string> =>
      (await rillkeeper('rehearse', RIBEIRA, '--draws', '1', '--json', '--seed', seed)).stdout;
    expect(await of('1')).toBe(json.stdout);
    const other = JSON.parse(await of('2')) as Data;
    expect({ ...other, seed: 1 }).not.toEqual(data);
  });

  it('says so when a bench is not sown yet on the day that was asked for', async () => {
    const { stdout } = await rillkeeper('rehearse', RIBEIRA, '--draws', '0', '--date', '2026-06-10');
    // Of the example farm, sown on 26 June, 4 June, 8 June and 14 June.
    expect(stdout).toContain('Not sown yet on this day, rehearsed as newly sown: Bench 1, Bench 4.');
  });
});
