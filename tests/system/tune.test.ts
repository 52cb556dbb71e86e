import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { linesOf, ownFolder, RIBEIRA, rillkeeper, started, written } from './rillkeeper.ts';

/** Few plans and runs over one day: seconds. */
const QUICK = ['--part', 'night', '--floods', '2-5', '--minutes', '15-25:5', '--days', '1', '--weeks', '0'];
const FEW = [...QUICK, '--draws', '2'];

interface Data {
  readonly smallest: {
    readonly parts: readonly { readonly floods: number; readonly floodMinutes: number }[];
  } | null;
  readonly choices: readonly { readonly judged: { readonly safe: boolean; readonly runs: number } | null }[];
  readonly plansTried: number;
  readonly plans: number;
  readonly stopped: boolean;
  readonly diff: string;
}

const json = await rillkeeper('tune', RIBEIRA, ...FEW, '--json');
const data = JSON.parse(json.stdout) as Data;

describe('tune', () => {
  it('--json tells the smallest safe plan, judged in every run as safe, and exits 0', () => {
    expect(json.code).toBe(0);
    expect(json.stderr).toBe('');
    expect(data.stopped).toBe(false);
    expect(data.plans).toBe(12);
    expect(data.smallest).toMatchObject({ judged: { safe: true, failingRuns: 0, runs: 3 } });
  });

  it('gives the same bytes for the same seed, and other numbers for another', async () => {
    expect((await rillkeeper('tune', RIBEIRA, ...FEW, '--json')).stdout).toBe(json.stdout);
    const other = JSON.parse(
      (await rillkeeper('tune', RIBEIRA, ...FEW, '--json', '--seed', '2')).stdout,
    ) as Data;
    expect({ ...other, seed: 1 }).not.toEqual(data);
  });

  it('--apply changes the numbers of the night and nothing else, and has nothing to write a second time', async () => {
    const before = readFileSync(RIBEIRA, 'utf8');
    const file = written(ownFolder(), 'farm.yaml', before);
    const first = await rillkeeper('tune', file, ...FEW, '--apply');
    expect(first.code).toBe(0);
    const after = readFileSync(file, 'utf8');
    const was = before.split('\n');
    const now = after.split('\n');
    expect(now).toHaveLength(was.length);
    const night = was.indexOf('  - part: night');
    const changed = now.flatMap((line, place) => (line === was[place] ? [] : [place]));
    expect(changed.length).toBeGreaterThan(0);
    for (const place of changed) {
      expect(place).toBeGreaterThan(night);
      expect(place).toBeLessThanOrEqual(night + 4);
      expect(now[place]).toMatch(/^ {4}(?:floods|floodMinutes): \d+$/);
    }
    const [part] = data.smallest!.parts;
    expect(after.slice(after.indexOf('- part: night'))).toMatch(
      new RegExp(
        `^- part: night\n.*\n.*\n    floods: ${part!.floods}\n    floodMinutes: ${part!.floodMinutes}\n`,
      ),
    );

    const second = await rillkeeper('tune', file, ...FEW, '--apply');
    expect(second.code).toBe(0);
    expect(second.stderr.replaceAll(/\s+/g, ' ')).toContain('these numbers stand there already');
    expect(readFileSync(file, 'utf8')).toBe(after);
  });

  it('exits 1 where no plan is safe, says so, and --apply writes nothing', async () => {
    const before = readFileSync(RIBEIRA, 'utf8').replace('wilt: 0.2', 'wilt: 0.49');
    const file = written(ownFolder(), 'dry.yaml', before);
    const thin = ['--part', 'night', '--floods', '1', '--minutes', '10', '--days', '1', '--weeks', '0'];
    const { code, stdout, stderr } = await rillkeeper(
      'tune',
      file,
      ...thin,
      '--draws',
      '2',
      '--hotter',
      '10',
      '--apply',
    );
    expect(code).toBe(1);
    expect(stdout).toContain('No plan that was tried is safe in every run.');
    expect(stderr.replaceAll(/\s+/g, ' ')).toContain('Nothing was written');
    expect(readFileSync(file, 'utf8')).toBe(before);
  });

  it('refuses a day part that is not in the plan with 2 and the names that are', async () => {
    const { code, stdout, stderr } = await rillkeeper('tune', RIBEIRA, '--part', 'evening');
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr.replaceAll(/\s+/g, ' ')).toMatch(/--part: found "evening".*"night"/);
    expect(stderr).not.toMatch(/^\s+at /m);
  });
});

describe('a long search that is asked to end', () => {
  it.each([2500, 5000])(
    'SIGINT after %d ms ends it within 2 s with what was found by then, as data that parse',
    async (wait) => {
      const narrower = [
        '--part',
        'night',
        '--part',
        'heat of the day',
        '--floods',
        '1-12',
        '--minutes',
        '10-35:1',
        '--rests',
        '10-50:5',
      ];
      const running = started('tune', RIBEIRA, ...narrower, '--days', '3', '--draws', '32', '--json');
      await new Promise((go) => setTimeout(go, wait));
      const asked = performance.now();
      running.child.kill('SIGINT');
      const { code, signal, stdout, stderr } = await running.ended;
      expect((performance.now() - asked) / 1000).toBeLessThan(2);
      expect(signal).toBe(null);
      // 0 or 1 as of any search: whether a safe plan had been found.
      const found = JSON.parse(stdout) as Data;
      expect(code).toBe(found.smallest === null ? 1 : 0);
      expect(found.stopped).toBe(true);
      expect(found.plansTried).toBeLessThan(found.plans);
      expect(stderr).not.toMatch(/^\s+at /m);
    },
  );

  it('of more plans than anybody waits for is refused at once, with their number', async () => {
    const wide = ['--part', 'all', '--floods', '1-10', '--minutes', '10-35:5', '--rests', '15-45:10'];
    const { code, stderr, seconds } = await rillkeeper('tune', RIBEIRA, ...wide);
    expect(code).toBe(2);
    expect(seconds).toBeLessThan(5);
    expect(linesOf(stderr).join(' ')).toMatch(/these are \d+ plans; allowed are 100000/);
  });
});
