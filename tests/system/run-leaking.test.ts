import { describe, expect, it, vi } from 'vitest';
import { EXIT } from '../../firmware-host/cli/exit-code.ts';
import { MEMORY } from '../../firmware-host/upkeep/memory.ts';
import { briskFarm } from './brisk-farm.ts';
import { emulatedOnPty } from './emulated-pty.ts';
import { notifySocket } from './notify-socket.ts';
import { linesOf, ownFolder, rillkeeper, startedLong, written, type Running } from './rillkeeper.ts';

/** Fault 62 on the real process, under a service manager that this test plays, and before the compiled firmware. */
const SECONDS = 1000;
vi.setConfig({ testTimeout: 240 * SECONDS });

/** Takes 10 MB more every half second, and lets none of it go, until it has had so many. Workers take none. */
const leakOf = (megabytes: number): string => `import { isMainThread } from 'node:worker_threads';
const held = [];
const grow = () => { held.push(Buffer.alloc(10 * 2 ** 20, 1)); if (held.length * 10 >= ${megabytes}) clearInterval(timer); };
const timer = isMainThread ? setInterval(grow, 500) : undefined;
globalThis.heldByTheLeak = held;
// A service manager names the process that it starts (SYSTEMD_EXEC_PID, systemd.exec(5)).
if (process.env.NOTIFY_SOCKET) process.env.SYSTEMD_EXEC_PID = String(process.pid);`;
const LEAK = written(ownFolder(), 'leak.mjs', leakOf(MEMORY.nearLimit - 70));
const NAMED = written(ownFolder(), 'named.mjs', leakOf(0));

/** A start by the service manager, or by a person where there is no socket. */
const begun = (preloaded: string, notify: string | null, ...args: readonly string[]): Running => {
  const env = {
    NODE_OPTIONS: `--import ${preloaded}`,
    ...(notify === null ? {} : { NOTIFY_SOCKET: notify }),
  };
  Object.assign(process.env, env);
  const running = startedLong(...args);
  for (const name of Object.keys(env)) Reflect.deleteProperty(process.env, name);
  return running;
};

interface Row {
  readonly kind: string;
  readonly alarm?: string;
  readonly flood?: number;
}
const bookOf = async (file: string): Promise<readonly Row[]> =>
  linesOf((await rillkeeper('book', file, '--json')).stdout).map((line) => JSON.parse(line) as Row);

describe(`a host that leaks to more than ${MEMORY.nearLimit} MB`, () => {
  it.concurrent(
    'under a service manager ends with 75 between floods, is started anew, and loses none',
    async () => {
      const notify = await notifySocket();
      const { file, farm, wiring } = briskFarm('Seep');
      const board = await emulatedOnPty(farm, wiring);
      const run = ['run', file, '--board', board.path];
      const first = begun(LEAK, notify.path, ...run);
      await first.said('flood 1 for 1 min');
      await first.said('too much memory');
      const { code, stdout, stderr } = await first.ended;
      expect(code).toBe(EXIT.renewed);
      expect(stderr).toMatch(
        /This host takes \d{3} MB of memory\. It ends between two floods, to be started anew\./,
      );
      // The flood was over and had its verdict; the board has the pump, and rests.
      expect(stdout.match(/flood \d+ for/g)).toHaveLength(1);
      expect([board.isPulled(), board.relay.length]).toEqual([false, 2]);

      const again = begun(NAMED, notify.path, ...run);
      await again.talked('Going on where the host before this one ended, less than a minute ago.');
      await again.said('the board answers');
      again.child.kill('SIGTERM');
      const next = await again.ended;
      expect([next.code, next.stderr.includes('SAFE MODE')]).toEqual([EXIT.done, false]);
      await board.unplug();
      notify.close();
      const book = await bookOf(file);
      const kinds = book.map(({ kind }) => kind);
      expect(kinds.filter((kind) => kind === 'stopped')).toHaveLength(2);
      expect(kinds.filter((kind) => kind === 'verdict')).toHaveLength(1);
      expect(book.filter(({ kind }) => kind === 'alarm-raised').map(({ alarm }) => alarm)).toEqual([
        'host-large',
      ]);
    },
  );

  it.concurrent('that a person has started tells of it, and stays', async () => {
    const { file, farm, wiring } = briskFarm('Sink');
    const board = await emulatedOnPty(farm, wiring);
    const running = begun(LEAK, null, 'run', file, '--board', board.path);
    await running.said('too much memory');
    await running.said('End it between two floods and start it anew');
    // As long as the other one has had for its end, and more.
    await new Promise((done) => setTimeout(done, 10 * SECONDS));
    expect(running.child.exitCode).toBeNull();
    running.child.kill('SIGTERM');
    expect((await running.ended).code).toBe(EXIT.done);
    await board.unplug();
  });
});
