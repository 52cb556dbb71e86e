import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { farmTextWith, linesOf, ownFolder, RIBEIRA, rillkeeper, written } from './rillkeeper.ts';

describe('check of a good farm file', () => {
  it('tells farm, day plan, deadline and outside watcher, and exits 0', async () => {
    const { code, stdout, stderr } = await rillkeeper('check', RIBEIRA);
    expect(code).toBe(0);
    expect(stderr).toBe('');
    expect(stdout).toContain(`${RIBEIRA}: good. Ribeira, 4 benches.`);
    expect(stdout).toContain('08:00 to 16:00  heat of the day: floods of 20 min, rest 25 min');
    // Two floods in two hours, each with its rest: 120 / 2 − 20.
    expect(stdout).toContain('06:00 to 08:00  early morning: 2 floods of 20 min, rest about 40 min');
    expect(stdout).toMatch(/is called missed \d+ min after its start at the latest/);
    expect(stdout).toContain('Outside watcher: nobody.');
  });

  it('warns at the line of the outside watcher when it is nobody, and not when it is somebody', async () => {
    const { text, line } = farmTextWith('outsideWatcher: nobody', 'outsideWatcher: { who: a neighbour }');
    const alone = await rillkeeper('check', RIBEIRA);
    expect(alone.stdout).toMatch(new RegExp(`^${RIBEIRA}:${line}:\\d+ {2}outsideWatcher: `, 'm'));
    const watched = await rillkeeper('check', written(ownFolder(), 'watched.yaml', text));
    expect(watched.code).toBe(0);
    expect(watched.stdout).not.toContain('outsideWatcher:');
    expect(watched.stdout).toContain('Outside watcher: a neighbour.');
  });

  it('--json says the same as data', async () => {
    const { code, stdout } = await rillkeeper('check', RIBEIRA, '--json');
    expect(code).toBe(0);
    const text = (await rillkeeper('check', RIBEIRA)).stdout;
    const data = JSON.parse(stdout) as {
      deadlineMinutes: number;
      warnings: readonly { says: string; line: number }[];
    };
    expect(data).toMatchObject({ ok: true, farm: 'Ribeira', today: '2026-07-14' });
    expect(text).toContain(`missed ${data.deadlineMinutes.toFixed(0)} min after`);
    expect(data.warnings).toHaveLength(
      linesOf(text).filter((line) => line.startsWith(`${RIBEIRA}:1`)).length,
    );
    for (const { says, line } of data.warnings)
      expect(text).toMatch(new RegExp(`:${line}:\\d+ {2}.*${says}`));
  });

  it('--schema prints docs/farm.schema.json byte for byte', async () => {
    const { code, stdout, stderr } = await rillkeeper('check', '--schema');
    expect(code).toBe(0);
    expect(stderr).toBe('');
    expect(stdout).toBe(readFileSync('docs/farm.schema.json', 'utf8'));
  });
});
