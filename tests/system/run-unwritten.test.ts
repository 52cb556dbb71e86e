import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { appendFileSync, mkdtempSync, rmSync, statfsSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { text } from 'node:stream/consumers';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, expect, it, onTestFinished } from 'vitest';
import { deskBoard, onPty } from './pty-board.ts';
import { ownFolder, realFarmText, written } from './rillkeeper.ts';

/** Fault 47 on the real process, as a person meets it who asks for the status. */
const SECONDS = 1000;
/** `status` takes a host that has not written for 30 s as silent. */
const SILENT_SECONDS = 32;

/** A disk of 4 MB in memory. Mounting wants root: without it this fails. */
const disk = mkdtempSync(join(tmpdir(), 'rillkeeper-disk-'));
beforeAll(() => {
  execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=4m', 'rillkeeper-test', disk]);
});
afterAll(() => {
  execFileSync('umount', [disk]);
  rmSync(disk, { recursive: true });
});

const begun = (...args: readonly string[]): ReturnType<typeof spawn> =>
  spawn(process.execPath, ['dist/main.mjs', ...args], {
    stdio: ['ignore', 'pipe', 'ignore'],
    env: { ...process.env, RILLKEEPER_STATE: disk },
    timeout: 190 * SECONDS,
    killSignal: 'SIGKILL',
  });

/** Every last byte, and again what the host frees for its alarms. */
const filled = (): void => {
  const { bavail, bsize } = statfsSync(disk);
  if (bavail > 0) appendFileSync(join(disk, 'filler'), Buffer.alloc(bavail * bsize));
};

it('status on a full disk says that the host runs and cannot write, of one that is stopped that it hangs, and NO HOST once it has ended', async () => {
  const desk = deskBoard();
  desk.digital.set(4, 0);
  const board = await onPty(desk.peer);
  const file = written(ownFolder(), 'brim.yaml', realFarmText('Brim'));
  const status = async (...more: readonly string[]): Promise<readonly [number | null, string]> => {
    const child = begun('status', file, ...more);
    const [out] = await Promise.all([text(child.stdout!), once(child, 'close')]);
    return [child.exitCode, out.replaceAll(/\s+/g, ' ')];
  };
  onTestFinished(async () => {
    if (running.exitCode === null && running.signalCode === null) {
      running.kill('SIGKILL');
      await once(running, 'close');
    }
    await board.unplug();
  });
  const running = begun('run', file, '--board', board.path);
  running.stdout!.resume();
  const head = async (): Promise<string> => (await status())[1];
  await expect.poll(head, { timeout: 40 * SECONDS }).toMatch(/^Brim /);

  // What is freed is taken again, for as long as the status that was written last is young enough to be believed.
  const statusFile = join(disk, 'brim', 'status.json');
  const end = performance.now() + 100 * SECONDS;
  while (performance.now() < end && Date.now() - statSync(statusFile).mtimeMs < SILENT_SECONDS * SECONDS) {
    filled();
    await sleep(100);
  }
  const [code, full] = await status();
  expect(full).toContain(`the host runs (process ${running.pid}) but cannot write its status`);
  expect([code, full.includes('NO HOST'), full.includes('nobody watches')]).toEqual([1, false, false]);
  expect(JSON.parse((await status('--json'))[1])).toMatchObject({ hostSilent: true, host: 'cannot-write' });

  running.kill('SIGSTOP');
  expect(await head()).toMatch(new RegExp(`^THE HOST HANGS \\(process ${running.pid}\\) .*nobody watches`));
  running.kill('SIGKILL');
  await once(running, 'close');
  expect(await head()).toMatch(/^NO HOST since .*nobody watches/);
}, 200_000);
