import { spawn, spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { briskFarm } from './brisk-farm.ts';
import { emulatedOnPty } from './emulated-pty.ts';
import { layProgram, programFolders, throwsAtStart, type ProgramFolders } from './program-folders.ts';
import { linesOf, ownFolder, rillkeeper, STATE } from './rillkeeper.ts';

const SECONDS = 1000;
vi.setConfig({ testTimeout: 120 * SECONDS });

const SCRIPT = join(process.cwd(), 'hardware-notes/way-back.sh');
const BAD = 'exit-code';

/** What systemd does after each end of the service: the unit's ExecStopPost. */
const after = (
  root: string,
  result: string,
  env: NodeJS.ProcessEnv = {},
  uptime = '/proc/uptime',
): string => {
  const said = spawnSync('sh', [SCRIPT, root, join(root, 'failures'), uptime], {
    encoding: 'utf8',
    env: { ...process.env, SERVICE_RESULT: result, ...env },
  });
  return `${said.status ?? 'killed'} ${said.stderr}`.trim();
};

/** Folders with nothing in them but the name of the program; 0.2.0 is in force, 0.1.0 was before it. */
const bare = (): Pick<ProgramFolders, 'root' | 'link' | 'path'> => {
  const root = ownFolder();
  for (const name of ['0.1.0', '0.2.0', '0.3.0']) {
    mkdirSync(join(root, name, 'dist'), { recursive: true });
    writeFileSync(join(root, name, 'dist/main.mjs'), '');
  }
  symlinkSync('0.2.0', join(root, 'current'));
  symlinkSync('0.1.0', join(root, 'before'));
  return { root, path: (name) => join(root, name), link: programLink(root) };
};
const programLink =
  (root: string) =>
  (name: string): string | null => {
    const said = spawnSync('readlink', [join(root, name)], { encoding: 'utf8' });
    return said.status === 0 ? said.stdout.trim() : null;
  };
const linksOf = ({ link }: Pick<ProgramFolders, 'link'>): readonly (string | null)[] =>
  ['current', 'before', 'went-back'].map(link);

const upSeconds = (): number => Math.floor(Number(readFileSync('/proc/uptime', 'utf8').split(' ')[0]));

describe('the way back, after each end of the service', () => {
  it('leaves a folder at its third failure for the one before it, once, and tells of it until a clean stop', () => {
    const made = bare();
    expect([after(made.root, BAD), after(made.root, 'watchdog')]).toEqual(['0', '0']);
    expect(linksOf(made)).toEqual(['0.2.0', '0.1.0', null]);
    expect(after(made.root, 'timeout')).toBe(
      '0 rillkeeper: 0.2.0 failed 3 times within 600 s; 0.1.0 runs again',
    );
    expect(linksOf(made)).toEqual(['0.1.0', null, '0.2.0']);
    for (let failure = 1; failure <= 5; failure += 1) expect(after(made.root, BAD)).toBe('0');
    expect(linksOf(made)).toEqual(['0.1.0', null, '0.2.0']);
    expect(after(made.root, 'success')).toBe('0');
    expect(linksOf(made)).toEqual(['0.1.0', null, null]);
  });

  it('leaves it also where both links were made with their whole path', () => {
    const made = bare();
    for (const [name, to] of [
      ['current', '0.2.0'],
      ['before', '0.1.0'],
    ] as const) {
      rmSync(made.path(name));
      symlinkSync(made.path(to), made.path(name));
    }
    for (let failure = 1; failure <= 3; failure += 1) after(made.root, BAD);
    expect(linksOf(made)).toEqual(['0.1.0', null, '0.2.0']);
  });

  it('tells of it also after a machine that goes down by itself', () => {
    const made = bare();
    for (let failure = 1; failure <= 3; failure += 1) after(made.root, BAD);
    const tools = ownFolder();
    writeFileSync(join(tools, 'systemctl'), '#!/bin/sh\necho stopping\nexit 1\n');
    chmodSync(join(tools, 'systemctl'), 0o755);
    expect(after(made.root, 'success', { PATH: `${tools}:${process.env['PATH']}` })).toBe('0');
    expect(linksOf(made)).toEqual(['0.1.0', null, '0.2.0']);
  });

  it.each(['2', '3'])('does not count an end with %s: the command line, or another host', (status) => {
    const made = bare();
    for (let failure = 1; failure <= 5; failure += 1) after(made.root, BAD, { EXIT_STATUS: status });
    expect(linksOf(made)).toEqual(['0.2.0', '0.1.0', null]);
  });

  it.each([
    ['599 s', 599, '0.1.0'],
    ['601 s', 601, '0.2.0'],
  ])('counts a failure of %s ago as it should', (_, ago, current) => {
    const made = bare();
    // Read from a file that stands still: a second that ends between two readings would make 600 s of 599 s.
    const failsAt = (second: number): void => {
      writeFileSync(made.path('uptime'), `${second}.98 1234.50\n`);
      after(made.root, BAD, {}, made.path('uptime'));
    };
    failsAt(1000);
    failsAt(1001);
    expect(made.link('current')).toBe('0.2.0');
    failsAt(1000 + ago);
    expect(made.link('current')).toBe(current);
  });

  it.each([
    ['a clean stop between the second and the third', (root: string) => void after(root, 'success')],
    [
      'failures of another folder',
      (root: string) => {
        writeFileSync(join(root, 'failures'), `${upSeconds()} 0.1.0\n${upSeconds()} 0.1.0\n`);
      },
    ],
    [
      'a count that cannot be read',
      (root: string) => {
        writeFileSync(join(root, 'failures'), 'x y\n\n-3\n0x2 0.2.0\n');
      },
    ],
    [
      'moments after now',
      (root: string) => {
        writeFileSync(join(root, 'failures'), `${upSeconds() + 999} 0.2.0\n${upSeconds() + 999} 0.2.0\n`);
      },
    ],
    [
      'no folder before',
      (root: string) => {
        rmSync(join(root, 'before'));
      },
    ],
    [
      'a folder before that is not whole',
      (root: string) => {
        rmSync(join(root, '0.1.0/dist/main.mjs'));
      },
    ],
    [
      'an update that was cut between its two links',
      (root: string) => {
        rmSync(join(root, 'before'));
        symlinkSync('0.2.0', join(root, 'before'));
      },
    ],
  ])('goes nowhere at the third failure with %s', (_, make) => {
    const made = bare();
    after(made.root, BAD);
    after(made.root, BAD);
    make(made.root);
    expect(after(made.root, BAD)).toBe('0');
    expect(made.link('current')).toBe('0.2.0');
  });

  it('cut by kill -9 before or after each of its 6 steps has a link to a whole folder, and ends its way at the next failures', () => {
    for (const step of [1, 2, 3, 4, 5, 6]) {
      for (const when of ['before', 'after']) {
        const made = bare();
        const tools = ownFolder();
        for (const tool of ['ln', 'mv', 'sync']) {
          const real = spawnSync('sh', ['-c', `command -v ${tool}`], { encoding: 'utf8' }).stdout.trim();
          const kill = `[ "$n" = ${step} ] && kill -9 $PPID`;
          const lines = ['#!/bin/sh', `echo >> ${tools}/n; n=$(wc -l < ${tools}/n)`];
          const call = `${real} "$@"`;
          const body = when === 'before' ? [kill, call] : [call, kill, 'true'];
          writeFileSync(join(tools, tool), [...lines, ...body].join('\n'));
          chmodSync(join(tools, tool), 0o755);
        }
        after(made.root, BAD);
        after(made.root, BAD);
        const said = after(made.root, BAD, { PATH: `${tools}:${process.env['PATH'] ?? ''}` });
        expect({ step, when, said }).toEqual({ step, when, said: 'killed' });
        const whole = (): boolean => existsSync(made.path('current/dist/main.mjs'));
        expect({ step, when, whole: whole() }).toEqual({ step, when, whole: true });
        after(made.root, BAD);
        expect({ step, when, whole: whole() }).toEqual({ step, when, whole: true });
        expect(linksOf(made).slice(0, 1)).toEqual(['0.1.0']);
        expect(made.link('went-back')).toBe('0.2.0');
      }
    }
  });
});

describe('a new version that throws at its start', () => {
  it('fails 3 times, then the one before it floods again, calls it by an alarm, and is as ever after a clean stop', async () => {
    const { file, farm, wiring } = briskFarm('Way Back');
    const made = programFolders();
    layProgram(made.root, '0.2.0', throwsAtStart);
    const updated = await rillkeeper('update', made.path('0.2.0'), file, '--no-backup');
    expect([updated.code, made.link('current')]).toEqual([0, '0.2.0']);
    const board = await emulatedOnPty(farm, wiring);

    /** One start of the service, to its end; `asked` ends it once it has said all of this. */
    const service = (
      ...asked: readonly string[]
    ): Promise<{ readonly code: number | null; readonly says: string }> =>
      new Promise((end) => {
        const args = [made.path('current/dist/main.mjs'), 'run', file, '--board', board.path];
        const env = { ...process.env, RILLKEEPER_STATE: STATE };
        const child = spawn(process.execPath, args, { env, timeout: 60 * SECONDS, killSignal: 'SIGKILL' });
        let says = '';
        let isAsked = false;
        for (const stream of [child.stdout, child.stderr]) {
          stream.setEncoding('utf8').on('data', (part: string) => {
            says += part;
            if (asked.length === 0 || isAsked || !asked.every((words) => says.includes(words))) return;
            isAsked = true;
            child.kill('SIGTERM');
          });
        }
        child.on('close', (code) => {
          after(made.root, code === 0 ? 'success' : BAD);
          end({ code, says });
        });
      });

    for (const start of [1, 2, 3]) {
      const { code, says } = await service();
      expect([start, code, says.includes('a made defect')]).toEqual([start, 1, true]);
    }
    expect(made.link('current')).toBe('0.1.0');
    const back = await service('flood 1 for 1 min', 'The host runs with as little as it can');
    expect(back.code).toBe(0);
    const why = '0.2.0 failed 3 times within 10 min, so 0.1.0 runs again';
    expect(back.says).toContain(`SAFE MODE: ${why}`);
    const clean = await service('the board answers');
    expect(clean.code).toBe(0);
    expect(clean.says).not.toContain('SAFE MODE');
    await board.unplug();
    const book = await rillkeeper('book', file, '--json');
    const alarms = linesOf(book.stdout).filter((line) => line.includes('"alarm-raised"'));
    expect(alarms.filter((line) => line.includes('"safe-mode"') && line.includes(why))).toHaveLength(1);
  });
});
