import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { chmodSync, existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterEach, describe, expect, it } from 'vitest';
import {
  isStartedAnew,
  NO_MANAGER,
  serviceManager,
} from '../../../firmware-host/heartbeat/service-manager.ts';

const children: ChildProcess[] = [];
afterEach(() => {
  for (const child of children.splice(0)) child.kill('SIGKILL');
});

/** A socket of datagrams, as a service manager holds one; needs socat. */
const listening = async (): Promise<{ readonly socket: string; readonly heard: () => string }> => {
  const socket = join(mkdtempSync(join(tmpdir(), 'rillkeeper-notify-')), 'socket');
  const child = spawn('socat', ['-u', `UNIX-RECV:${socket}`, 'STDOUT'], {
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  children.push(child);
  await Promise.race([once(child, 'spawn'), once(child, 'error')]);
  if (child.pid === undefined) throw new Error('socat is not installed: apt-get install socat');
  let heard = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    heard += text;
    // The notifier waits until a descriptor that it sent with its last word is closed, as a service manager does at once.
    if (heard.includes('BARRIER=1')) child.kill('SIGKILL');
  });
  while (!existsSync(socket)) await sleep(10);
  return { socket, heard: () => heard };
};

/** A notifier of its own making, which notes how it is called. */
const notifier = (text: string): string => {
  const file = join(mkdtempSync(join(tmpdir(), 'rillkeeper-notify-')), 'notify');
  writeFileSync(file, `#!/bin/sh\n${text}\n`);
  chmodSync(file, 0o755);
  return file;
};

describe('the service manager', () => {
  it('hears READY, WATCHDOG and STATUS as datagrams from systemd-notify', async () => {
    const { socket, heard } = await listening();
    const failed: string[] = [];
    process.env['NOTIFY_SOCKET'] = socket;
    const manager = serviceManager(process.env, (why) => failed.push(why));
    manager.tell('READY=1', 'WATCHDOG=1', 'STATUS=Wet.\nNext about 14:59.');
    await manager.settled();
    delete process.env['NOTIFY_SOCKET'];
    await expect.poll(heard, { timeout: 5000 }).toContain('READY=1');
    expect(heard()).toContain('WATCHDOG=1');
    expect(heard()).toContain('STATUS=Wet. Next about 14:59.');
    expect(failed).toEqual([]);
  });

  it('that hears slowly is told only the newest of each kind, and nobody waits for it', async () => {
    const log = join(mkdtempSync(join(tmpdir(), 'rillkeeper-notify-')), 'log');
    const manager = serviceManager(
      { NOTIFY_SOCKET: '/nowhere' },
      () => undefined,
      notifier(`sleep 0.2; echo "$@" >> ${log}`),
    );
    const begun = performance.now();
    for (let beat = 1; beat <= 1000; beat += 1) manager.tell('WATCHDOG=1', `STATUS=${beat}`);
    expect(performance.now() - begun).toBeLessThan(150);
    await manager.settled();
    expect(readFileSync(log, 'utf8').trim().split('\n')).toEqual([
      '-- WATCHDOG=1 STATUS=1',
      '-- WATCHDOG=1 STATUS=1000',
    ]);
  });

  it.each([
    ['is not installed', '/nowhere/systemd-notify'],
    ['fails', notifier('exit 1')],
    ['cannot be begun', 'a\0b'],
  ])('whose program %s is told of once in 10 words, and never throws', async (_, program) => {
    const failed: string[] = [];
    const manager = serviceManager({ NOTIFY_SOCKET: '/nowhere' }, (why) => failed.push(why), program);
    for (let beat = 0; beat < 10; beat += 1) {
      manager.tell('WATCHDOG=1');
      await manager.settled();
    }
    expect(failed).toHaveLength(1);
  });

  it('is nobody where the environment names no socket', () => {
    expect(serviceManager({}, () => undefined)).toBe(NO_MANAGER);
    expect(serviceManager({ NOTIFY_SOCKET: '' }, () => undefined)).toBe(NO_MANAGER);
  });
});

describe('a process', () => {
  const SOCKET = { NOTIFY_SOCKET: '/run/systemd/notify' };
  it.each<readonly [which: string, env: Readonly<Record<string, string>>, isStarted: boolean]>([
    ['that the service manager names is', { ...SOCKET, SYSTEMD_EXEC_PID: '7' }, true],
    ['whose watchdog is watched is, before systemd 248', { ...SOCKET, WATCHDOG_PID: '7' }, true],
    ['below the one that it names is not', { ...SOCKET, SYSTEMD_EXEC_PID: '6', WATCHDOG_PID: '7' }, false],
    ['below the one that is watched is not', { ...SOCKET, WATCHDOG_PID: '6' }, false],
    ['that nobody names is not', SOCKET, false],
    ['without a socket is not', { SYSTEMD_EXEC_PID: '7' }, false],
    ['with an empty one is not', { NOTIFY_SOCKET: '', SYSTEMD_EXEC_PID: '7' }, false],
  ])('%s started anew by it: %j', (_, env, isStarted) => {
    expect(isStartedAnew(env, 7)).toBe(isStarted);
  });
});
