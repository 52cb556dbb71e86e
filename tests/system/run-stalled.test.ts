import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it, vi } from 'vitest';
import { BRISK, briskFarm } from './brisk-farm.ts';
import { emulatedOnPty } from './emulated-pty.ts';
import { notifySocket } from './notify-socket.ts';
import { linesOf, ownFolder, rillkeeper, startedLong, written, type Running } from './rillkeeper.ts';

/** Fault 25 on the real process, under a service manager that this test plays, and before the compiled firmware. */
const SECONDS = 1000;
/** Shorter than that of the unit, so that it need not be waited for; the host is told of it in the same way. */
const WATCHDOG_SECONDS = 15;
const LEASE_SECONDS = 10;
vi.setConfig({ testTimeout: 150 * SECONDS });

const FOLDER = ownFolder();
/** Blocks the thread that commands the pump, for good, once there is a file of that name. */
const STALL = `const { isMainThread } = require('node:worker_threads');
const look = () => { if (require('node:fs').existsSync(${JSON.stringify(join(FOLDER, 'stall'))})) Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0); };
if (isMainThread) setInterval(look, 100).unref();`;

const underService = (notify: string, more: Readonly<Record<string, string>>, ...args: string[]): Running => {
  const env = { NOTIFY_SOCKET: notify, WATCHDOG_USEC: String(WATCHDOG_SECONDS * 1e6), ...more };
  Object.assign(process.env, env);
  const running = startedLong(...args);
  for (const name of Object.keys(env)) Reflect.deleteProperty(process.env, name);
  return running;
};

describe(`a host whose loop is blocked for good in a flood, under a watchdog of ${WATCHDOG_SECONDS} s`, () => {
  it('feeds it no more and is ended for that; the flood goes on meanwhile, and the next host is ready and fed', async () => {
    const notify = await notifySocket();
    const { file, farm, wiring } = briskFarm('Stall');
    const board = await emulatedOnPty(farm, wiring);
    const told = (word: string, since: number) =>
      notify.words.filter((one) => one.word === word && one.at > since);
    const run = ['run', file, '--board', board.path];

    const stalling = { NODE_OPTIONS: `--require ${written(FOLDER, 'stall.cjs', STALL)}` };
    const first = underService(notify.path, stalling, ...run);
    await first.said('flood 1 for 1 min');
    await expect.poll(() => told('READY=1', 0).length).toBe(1);
    await expect.poll(() => told('WATCHDOG=1', 0).length, { timeout: 20 * SECONDS }).toBeGreaterThan(1);
    written(FOLDER, 'stall', '');
    const stalledAt = performance.now();

    // As the service manager does it (WatchdogSec=, systemd.service(5)): so long after the last word, by SIGABRT.
    const lastFed = (): number => told('WATCHDOG=1', 0).at(-1)!.at;
    while (performance.now() - lastFed() < WATCHDOG_SECONDS * SECONDS) await sleep(100);
    const killedAt = performance.now();
    // The lease is over: it is the board that has the pump, and goes on with the flood.
    expect(board.relay.map(({ pulled }) => pulled)).toEqual([true]);
    first.child.kill('SIGABRT');
    await first.ended;
    expect(first.child.signalCode).toBe('SIGABRT');
    // One word may have been on its way.
    expect(told('WATCHDOG=1', stalledAt + SECONDS)).toEqual([]);
    expect(killedAt - stalledAt).toBeLessThan((WATCHDOG_SECONDS + 1) * SECONDS);
    expect(killedAt - stalledAt).toBeGreaterThan(LEASE_SECONDS * SECONDS);

    const again = underService(notify.path, {}, ...run);
    await again.talked('Going on where the host before this one ended, less than a minute ago.');
    await expect.poll(() => told('READY=1', killedAt).length, { timeout: 20 * SECONDS }).toBe(1);
    await expect
      .poll(() => told('WATCHDOG=1', killedAt).length, { timeout: 30 * SECONDS })
      .toBeGreaterThan(1);
    await expect.poll(board.isPulled, { timeout: 30 * SECONDS }).toBe(false);
    again.child.kill('SIGTERM');
    const { code, stderr } = await again.ended;
    expect([code, stderr.includes('SAFE MODE')]).toEqual([0, false]);
    expect(told('STOPPING=1', killedAt)).toHaveLength(1);
    await board.unplug();
    notify.close();

    const [begun, over] = board.relay;
    expect((over!.at - begun!.at) / SECONDS).toBeLessThan(BRISK.floodSeconds + 2);
    const { stdout } = await rillkeeper('book', file, '--json');
    const kinds = linesOf(stdout).map((line) => (JSON.parse(line) as { readonly kind: string }).kind);
    expect(kinds.filter((kind) => kind === 'gap-recorded')).toHaveLength(1);
    expect(kinds.at(-1)).toBe('stopped');
  });
});
