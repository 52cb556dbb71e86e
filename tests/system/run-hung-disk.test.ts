import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { expect, it, vi } from 'vitest';
import { ALLOWED_SECONDS } from '../../firmware-host/heartbeat/health-table.ts';
import { notifySocket } from './notify-socket.ts';
import { deskBoard, onPty } from './pty-board.ts';
import { ownFolder, realFarmText, started, startedAmid, startedLong, STATE, written } from './rillkeeper.ts';

/** Faults 50 and 51 on the real process, one after the other, under a service manager that this test plays. */
const SECONDS = 1000;
const WATCHDOG_SECONDS = 15;
vi.setConfig({ testTimeout: 150 * SECONDS });

const FOLDER = ownFolder();
const BEGIN = join(FOLDER, 'begin');

/** The kept state is written within 10 s; a call counts as hung from 2 s on; the watchdog is fed three times within its time. */
const TOLD_SECONDS = 10 + 2 + ALLOWED_SECONDS.journal + WATCHDOG_SECONDS / 3;

/** Once there is a file of that name, the first flush of the book fails and each further one hangs. */
const SHIM = `#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>
static int failed;
static int spoilt(const char *name, int fd) {
  char path[64], file[4096];
  snprintf(path, sizeof path, "/proc/self/fd/%d", fd);
  ssize_t length = readlink(path, file, sizeof file - 1);
  file[length < 0 ? 0 : length] = 0;
  if (strstr(file, "book.sqlite") && access(${JSON.stringify(BEGIN)}, F_OK) == 0) {
    if (failed++ == 0) { errno = EIO; return -1; }
    sleep(150);
  }
  return ((int (*)(int))dlsym(RTLD_NEXT, name))(fd);
}
int fsync(int fd) { return spoilt("fsync", fd); }
int fdatasync(int fd) { return spoilt("fdatasync", fd); }
`;

/** Every flush of whatever lies in the state folder hangs, from the first on. */
const SHIM_ALL = SHIM.replace('strstr(file, "book.sqlite")', `strstr(file, ${JSON.stringify(STATE)})`)
  .replace(/ && access[^)]*\) == 0/, '')
  .replace(/ {4}if \(failed.*\n/, '');

const shim = (name: string, source: string): string => {
  const library = join(FOLDER, `${name}.so`);
  execFileSync('gcc', ['-shared', '-fPIC', written(FOLDER, `${name}.c`, source), '-o', library, '-ldl']);
  return library;
};

it(`a book whose disk fails once and hangs after that is told as hung within ${TOLD_SECONDS + 5} s, and the watchdog fed no more`, async () => {
  const desk = deskBoard();
  desk.digital.set(4, 0);
  const board = await onPty(desk.peer);
  const notify = await notifySocket();
  const env = {
    NOTIFY_SOCKET: notify.path,
    WATCHDOG_USEC: String(WATCHDOG_SECONDS * 1e6),
    LD_PRELOAD: shim('book', SHIM),
  };
  Object.assign(process.env, env);
  const file = written(FOLDER, 'hush.yaml', realFarmText('Hush'));
  const running = startedLong('run', file, '--board', board.path);
  for (const name of Object.keys(env)) Reflect.deleteProperty(process.env, name);
  await running.said('the board answers');
  const fed = (since: number): number =>
    notify.words.filter(({ word, at }) => word === 'WATCHDOG=1' && at > since).length;
  await expect.poll(() => fed(0), { timeout: 20 * SECONDS }).toBeGreaterThan(0);
  written(FOLDER, 'begin', '');
  const begun = performance.now();

  await Promise.race([running.talked('Hung: journal'), sleep((TOLD_SECONDS + 5) * SECONDS)]);
  const hungAt = performance.now();
  expect(hungAt - begun).toBeGreaterThan(ALLOWED_SECONDS.journal * SECONDS);
  await sleep(WATCHDOG_SECONDS * SECONDS);
  expect([fed(begun) > 0, fed(hungAt)]).toEqual([true, 0]);
  running.child.kill('SIGKILL');
  const { stderr } = await running.ended;
  expect(stderr).toContain('Hung: journal');
  await board.unplug();
  notify.close();
});

/** It waits 2 s for the disk, once; a busy machine takes its time for the rest. */
const IN_HAND_SECONDS = 25;
/** Longer than the status, the book and the watchdog need to be refused or fed. */
const STAYS_SECONDS = 20;

it(`a start on a state folder that hangs as a whole has its board within ${IN_HAND_SECONDS} s and keeps it, and the watchdog is fed`, async () => {
  const desk = deskBoard();
  desk.digital.set(4, 0);
  const board = await onPty(desk.peer);
  const file = written(FOLDER, 'lull.yaml', realFarmText('Lull'));
  const first = started('run', file, '--board', board.path);
  await first.said('the board answers');
  first.child.kill('SIGKILL');
  await first.ended;

  const notify = await notifySocket();
  written(FOLDER, 'lull.yaml', `${realFarmText('Lull')}# Changed since.\n`);
  const begun = performance.now();
  const second = startedAmid(
    {
      NOTIFY_SOCKET: notify.path,
      WATCHDOG_USEC: String(WATCHDOG_SECONDS * 1e6),
      LD_PRELOAD: shim('all', SHIM_ALL),
      RUNTIME_DIRECTORY: ownFolder(),
    },
    'run',
    file,
    '--board',
    board.path,
  );
  await Promise.race([second.said('the board answers'), second.ended, sleep(60 * SECONDS)]);
  const inHandSeconds = (performance.now() - begun) / SECONDS;
  await sleep(STAYS_SECONDS * SECONDS);
  second.child.kill('SIGKILL');
  const { stdout, stderr } = await second.ended;
  expect(stdout).toContain('the board answers');
  expect(inHandSeconds).toBeLessThan(IN_HAND_SECONDS);
  expect(stderr).toContain('The farm file could not be kept');
  expect(stderr).toContain('the disk has not answered for 2 s');
  expect(stdout).not.toContain('does not answer');
  const feeds = notify.words.filter(({ word }) => word === 'WATCHDOG=1');
  expect(feeds.length).toBeGreaterThan(2);
  await board.unplug();
  notify.close();
});
