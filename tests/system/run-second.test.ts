import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { symlinkSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { text } from 'node:stream/consumers';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { deskBoard, onPty, type PtyBoard } from './pty-board.ts';
import { ownFolder, realFarmText, started, startedAmid, STATE, type Running, written } from './rillkeeper.ts';

const FOLDER = ownFolder();
const MAIN = resolve('dist/main.mjs');
const file = written(FOLDER, 'mere.yaml', realFarmText('Mere'));

/** A second host, of another login: `state` is its state folder. One that is not refused is ended after 15 s. */
const second = async (
  state: string,
  asked: { readonly port: string; readonly cwd?: string; readonly farm?: string },
): Promise<{ readonly code: number | null; readonly stderr: string }> => {
  const child = spawn(process.execPath, [MAIN, 'run', asked.farm ?? file, '--board', asked.port], {
    stdio: ['ignore', 'ignore', 'pipe'],
    env: { ...process.env, RILLKEEPER_STATE: state },
    cwd: asked.cwd ?? process.cwd(),
    timeout: 15_000,
    killSignal: 'SIGKILL',
  });
  const [stderr] = await Promise.all([text(child.stderr), once(child, 'close')]);
  return { code: child.exitCode, stderr: stderr.replaceAll(/\s+/g, ' ') };
};

describe('a second host of a board that has one', () => {
  let board: PtyBoard;
  let first: Running;
  beforeAll(async () => {
    const desk = deskBoard();
    desk.digital.set(4, 0);
    board = await onPty(desk.peer);
    first = started('run', file, '--board', board.path);
    await first.said('the board answers');
  });
  afterAll(async () => {
    first.child.kill('SIGTERM');
    await first.ended;
    await board.unplug();
  });

  it.each([
    ['with the same state folder, spelled from another working folder', 'relative'],
    ['with the same state folder, by a link to it', 'link'],
    ['with another state folder, as another user has', 'other'],
    ['with another state folder, the port named by another link', 'other-port'],
    ['with the file of another farm', 'other-farm'],
  ] as const)('%s ends with 3 and names the process of the first', async (_, how) => {
    const link = (to: string): string => {
      const path = join(ownFolder(), 'link');
      symlinkSync(to, path);
      return path;
    };
    const { code, stderr } =
      how === 'relative'
        ? await second(basename(STATE), { port: board.path, cwd: dirname(STATE) })
        : how === 'link'
          ? await second(link(STATE), { port: board.path })
          : await second(ownFolder(), {
              port: how === 'other-port' ? link(board.path) : board.path,
              ...(how === 'other-farm' ? { farm: written(FOLDER, 'tarn.yaml', realFarmText('Tarn')) } : {}),
            });
    expect([code, stderr]).toEqual([3, expect.stringContaining('one pump has one host')]);
    expect(stderr).toContain(`(process ${first.child.pid})`);
  });

  it('status with another state folder tells of the host that runs, and where to look; also where a simulated shed was run there', async () => {
    const other = { RILLKEEPER_STATE: ownFolder() };
    const status = async (): Promise<readonly [number | null, string, string]> => {
      const { code, stdout, stderr } = await startedAmid(other, 'status', file).ended;
      return [code, stdout, stderr.replaceAll(/\s+/g, ' ')];
    };
    const [code, , words] = await status();
    expect(code).toBe(1);
    expect(words).toContain(`A host of Mere runs on this machine (process ${first.child.pid})`);
    expect(words).toContain('RILLKEEPER_STATE=/var/lib/rillkeeper rillkeeper status');
    expect(words).not.toContain('No host has run');
    const demo = await startedAmid(other, 'run', file, '--board', 'demo', '--speed', 'max', '--for', '1h')
      .ended;
    expect(demo.code).toBe(0);
    const [, shown, hint] = await status();
    expect(shown).toContain('Mere, in a simulated shed at');
    expect(hint).toContain(`A host of Mere runs on this machine (process ${first.child.pid})`);
  });
});
