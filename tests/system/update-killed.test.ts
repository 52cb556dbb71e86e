import { spawn } from 'node:child_process';
import { mkdirSync, readdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { readBackup } from '../../firmware-host/storage/journal/backup-file.ts';
import { bookPath } from '../../firmware-host/storage/journal/book-path.ts';
import { createBookKeeper } from '../../firmware-host/storage/journal/book-keeper.ts';
import { USUAL_LIMITS } from '../../firmware-host/storage/journal/retention.ts';
import { stateFolder } from '../../firmware-host/storage/state-folder.ts';
import { KILL_AT_STEP } from './kill-at-step.ts';
import { layProgram, programFolders, type ProgramFolders } from './program-folders.ts';
import { ownFolder, realFarmText, STATE, written } from './rillkeeper.ts';

vi.setConfig({ testTimeout: 300_000 });

const FARM = written(ownFolder(), 'farm.yaml', realFarmText('Cut Short'));
const FOLDER = stateFolder('Cut Short', { RILLKEEPER_STATE: STATE });

/** A book to back up. */
const layBook = (): void => {
  mkdirSync(dirname(bookPath(FOLDER)), { recursive: true });
  const keeper = createBookKeeper({ folder: FOLDER, boot: 'boot', limits: USUAL_LIMITS });
  expect(keeper.open(null, 0).kind).toBe('open');
  keeper.close();
};

interface Ended {
  readonly code: number | null;
  readonly stderr: string;
}

const node = (
  args: readonly string[],
  env: NodeJS.ProcessEnv = {},
  killAfterMillis?: number,
): Promise<Ended> =>
  new Promise((end) => {
    const child = spawn(process.execPath, args, {
      stdio: ['ignore', 'ignore', 'pipe'],
      env: { ...process.env, RILLKEEPER_STATE: STATE, ...env },
    });
    let stderr = '';
    child.stderr.setEncoding('utf8').on('data', (part: string) => (stderr += part));
    const timer =
      killAfterMillis === undefined ? undefined : setTimeout(() => child.kill('SIGKILL'), killAfterMillis);
    child.on('close', (code) => {
      clearTimeout(timer);
      end({ code, stderr });
    });
  });

/** By the program in force, to the folder that is not. */
const update = (
  { path, link, prove }: ProgramFolders,
  env?: NodeJS.ProcessEnv,
  killAfterMillis?: number,
): Promise<Ended> => {
  prove();
  const to = link('current') === '0.1.0' ? '0.2.0' : '0.1.0';
  return node([path('current/dist/main.mjs'), 'update', path(to), FARM], env, killAfterMillis);
};

/** The link leads to one of the two, and the program in it works. */
const expectWhole = async ({ path, link }: ProgramFolders, when: string): Promise<void> => {
  const checked = await node([path('current/dist/main.mjs'), 'check', FARM]);
  expect({ when, code: checked.code, to: link('current') }).toEqual({
    when,
    code: 0,
    to: expect.stringMatching(/^0\.[12]\.0$/) as unknown,
  });
};

describe('an update that is ended by kill -9', () => {
  it('before or after each of its steps on the disk, one after the other, leaves a link to a whole program that works', async () => {
    layBook();
    const folders = programFolders();
    layProgram(folders.root, '0.2.0');
    const env = { NODE_OPTIONS: `--require ${KILL_AT_STEP}` };
    const counted = await update(folders, env);
    expect(counted.code).toBe(0);
    const steps = Number(/steps: (\d+)/.exec(counted.stderr)?.[1]);
    // Backup written, and two links made, named and brought to the disk.
    expect(steps).toBeGreaterThanOrEqual(10);
    let switched = 0;
    for (let step = 1; step <= steps; step += 1) {
      for (const when of ['before', 'after']) {
        const from = folders.link('current');
        const { code } = await update(folders, { ...env, KILL_AT: `${step} ${when}` });
        expect({ step, when, code }).toEqual({ step, when, code: null });
        await expectWhole(folders, `${when} step ${step} of ${steps}`);
        if (folders.link('current') !== from) switched += 1;
      }
    }
    // The last steps lie behind the switch, the others before it.
    expect(switched).toBeGreaterThanOrEqual(3);
    expect(switched).toBeLessThan(steps);
    expect((await update(folders)).code).toBe(0);
    expect(readdirSync(folders.root).toSorted()).toEqual(['0.1.0', '0.2.0', 'before', 'current']);
    const backups = readdirSync(FOLDER).filter((name) => name.endsWith('.rillkeeper'));
    expect(backups.map((name) => readBackup(`${FOLDER}/${name}`).kind)).toEqual(backups.map(() => 'good'));
  });

  it('at 10 moments spread over its course leaves a link to a whole program that works', async () => {
    layBook();
    const folders = programFolders();
    layProgram(folders.root, '0.2.0');
    const begun = performance.now();
    expect((await update(folders)).code).toBe(0);
    const longest = performance.now() - begun;
    let killed = 0;
    for (let kill = 1; kill <= 10; kill += 1) {
      const { code } = await update(folders, {}, ((kill - 0.5) / 10) * longest);
      if (code === null) killed += 1;
      await expectWhole(folders, `kill ${kill}`);
    }
    expect(killed).toBeGreaterThanOrEqual(5);
  });
});
