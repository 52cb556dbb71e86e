import { describe, expect, it } from 'vitest';
import { farmTextWith, linesOf, ownFolder, RIBEIRA, rillkeeper, written } from './rillkeeper.ts';

interface Band {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

interface Bench {
  readonly bench: string;
  readonly lowestHeldPercent: Band;
  readonly timeLeftMinutes: Band;
  readonly oneMissMarginPoints: Band;
  readonly lowestOxygenMilligramsPerLitre: Band;
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

const UNIT = /Minutes|Percent|Points|Celsius|Litre|pumpHours|kilowattHours|MillisiemensPerCm/;
const COUNTS = ['.seed', '.runs', '.days', '.floodsByPart.floods', '.floodsByPart.notConfirmed'];

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

  it('tells bands in their order: 5, 50 and 95 % of the runs', () => {
    expect(data.benches).toHaveLength(4);
    for (const bench of data.benches) {
      const { lowestHeldPercent, timeLeftMinutes, oneMissMarginPoints, lowestOxygenMilligramsPerLitre } =
        bench;
      for (const { low, middle, high } of [
        lowestHeldPercent,
        timeLeftMinutes,
        oneMissMarginPoints,
        lowestOxygenMilligramsPerLitre,
      ]) {
        expect(low).toBeLessThanOrEqual(middle);
        expect(middle).toBeLessThanOrEqual(high);
      }
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
      // Lowest held, lowest oxygen, warmest water, time left and when, one-miss margin.
      const band = String.raw`\d+(?:\.\d)?(?:–\d+(?:\.\d)?){0,2}`;
      const margin = String.raw`[+−]\d+(?: – [+−]\d+){0,2}`;
      const row = new RegExp(`^ +${band} +${band} +${band} +\\S.*\\) +\\d\\d:\\d\\d +${margin}$`);
      const rows = linesOf(stdout).filter(
        (line) => line.startsWith(bench) && row.test(line.slice(bench.length)),
      );
      expect(rows).toHaveLength(1);
    }
  });

  it('tells its scenarios, and rehearses one of them by its name over its own days', async () => {
    const { stdout: listed } = await rillkeeper('rehearse', '--scenarios');
    expect(linesOf(listed).length).toBe(13);
    expect(listed).toContain('water-shortage');
    const asData = await rillkeeper('rehearse', '--scenarios', '--json');
    expect(JSON.parse(asData.stdout)).toContainEqual({
      scenario: 'water-shortage',
      says: 'three days on which no water comes into the tank',
      days: 3,
    });
    const dry = await rillkeeper(
      'rehearse',
      RIBEIRA,
      '--scenario',
      'water-shortage',
      '--draws',
      '0',
      '--json',
    );
    expect(JSON.parse(dry.stdout)).toMatchObject({
      scenario: 'water-shortage',
      days: 3,
      faults: [{ kind: 'top-up-stopped', until: null }],
      advice: [],
    });
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
