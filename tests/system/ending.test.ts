import { execFileSync } from 'node:child_process';
import { openSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { linesOf, RIBEIRA, rillkeeper, started } from './rillkeeper.ts';

// eslint-disable-next-line no-control-regex -- control characters are what is looked for
const CONTROL = /[\u0000-\u0009\u000b-\u001f\u007f\u009b]/;

describe('a run that is asked to end', () => {
  it.each(['SIGINT', 'SIGTERM', 'SIGHUP'] as const)(
    '%s in the middle of a flood ends it within 2 s, with 0 and the pump asked off',
    async (signal) => {
      const running = started('run', RIBEIRA, '--speed', '60', '--json');
      await running.said('"flood-started"');
      const asked = performance.now();
      running.child.kill(signal);
      const { code, stdout, stderr } = await running.ended;
      expect((performance.now() - asked) / 1000).toBeLessThan(2);
      expect(code).toBe(0);
      expect(stderr).not.toMatch(/^\s+at /m);
      const entries = linesOf(stdout).map((line) => JSON.parse(line) as { kind: string; pump?: string });
      expect(entries.slice(-2).map(({ kind }) => kind)).toEqual(['verdict', 'pump-asked']);
      expect(entries.at(-1)?.pump).toBe('off');
    },
  );

  it('SIGINT in a long wait, at a speed at which the next look is a minute away, ends it within 2 s', async () => {
    const running = started('run', RIBEIRA, '--speed', '0.5');
    await running.said('running');
    const asked = performance.now();
    running.child.kill('SIGINT');
    expect((await running.ended).code).toBe(0);
    expect((performance.now() - asked) / 1000).toBeLessThan(2);
  });

  it('SIGINT ends a run of 60 days at full speed before its time', async () => {
    const running = started('run', RIBEIRA, '--speed', 'max', '--for', '60d');
    await running.said('flood 1 for');
    running.child.kill('SIGINT');
    const { code, stdout } = await running.ended;
    expect(code).toBe(0);
    // The 60 days end on 12 September.
    expect(stdout).not.toContain('2026-09-11');
  });
});

describe('stdout whose reader has gone', () => {
  it.each([
    ['run', [RIBEIRA, '--speed', 'max', '--for', '5d']],
    ['run', [RIBEIRA, '--speed', '60', '--json']],
  ])('%s %j ends quietly with 0 after the first line', async (command, args) => {
    const running = started(command, ...args);
    await running.said('\n');
    running.child.stdout!.destroy();
    const { code, stderr } = await running.ended;
    expect(code).toBe(0);
    expect(linesOf(stderr)).toEqual([expect.stringMatching(/^Ribeira in a simulated shed/)]);
  });

  it.each([['check --schema'], [`rehearse ${RIBEIRA} --draws 0`]])(
    '%s | head -1 says nothing on stderr',
    (command) => {
      const shell = `set -o pipefail; ${process.execPath} dist/main.mjs ${command} 2>&1 >&3 3>&- | cat; exit`;
      const said = execFileSync('bash', ['-c', `exec 3> >(head -1 >/dev/null); ${shell}`], {
        encoding: 'utf8',
      });
      expect(said).toBe('');
    },
  );

  it('ends with 74 and says so when the disk is full', () => {
    const full = openSync('/dev/full', 'w');
    const run = (): unknown =>
      execFileSync(process.execPath, ['dist/main.mjs', 'check', RIBEIRA], {
        stdio: ['ignore', full, 'pipe'],
      });
    expect(run).toThrow(expect.objectContaining({ status: 74 }));
    expect(run).toThrow(/stdout takes no more \(ENOSPC\)/);
  });
});

describe('stderr that is no terminal', () => {
  it('holds no control character, though the work is longer than a second', async () => {
    const { stderr, seconds } = await rillkeeper('rehearse', RIBEIRA, '--draws', '12');
    expect(seconds).toBeGreaterThan(1);
    expect(stderr).not.toMatch(CONTROL);
  });
});
