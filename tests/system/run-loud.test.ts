import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readFileSync, readlinkSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { expect, it, onTestFinished } from 'vitest';
import { MEMORY } from '../../firmware-host/upkeep/memory.ts';
import { LOUD_BROKERS, LOUD_HOOKS, LOUD_INTERIM, LOUD_MAIL, startLoud } from '../support/loud-peers.ts';
import { listenedTo } from './board-questions.ts';
import { deskBoard, onPty } from './pty-board.ts';
import { ownFolder, realFarmText, startedLong, written } from './rillkeeper.ts';

/** Fault 61 from the other side: those to whom a running host talks, each as loud as it can be, all at once. */
const SECONDS = 1000;
const RELAY = 7;
const SPAN_SECONDS = 15;

/** A device that never falls silent, as fast as its line takes it. */
const babbler = async (): Promise<{ readonly port: string; readonly close: () => Promise<void> }> => {
  const link = join(ownFolder(), 'modem');
  const child = spawn('socat', [`PTY,link=${link},raw,echo=0`, 'SYSTEM:yes RING'], { stdio: 'ignore' });
  while (!existsSync(link)) await sleep(10);
  return {
    port: readlinkSync(link),
    close: async () => {
      child.kill('SIGTERM');
      if (child.exitCode === null && child.signalCode === null) await once(child, 'exit');
    },
  };
};

/** The most memory that a process has ever had, in MB (VmHWM, proc(5)). */
const megabytesMost = (pid: number): number =>
  Number(/^VmHWM:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))![1]) / 1024;

it(`loud mail server, broker, modem and webhooks leave a host below ${MEMORY.large} MB, and its floods on time`, async () => {
  const [mail, broker, modem, ...hooks] = await Promise.all([
    startLoud(LOUD_MAIL['says empty lines without end']!),
    startLoud(LOUD_BROKERS['begins a message of 256 MB']!),
    babbler(),
    ...[...Object.values(LOUD_HOOKS), LOUD_INTERIM].slice(-3).map(startLoud),
  ]);
  const desk = deskBoard();
  desk.digital.set(4, 0);
  const questions = listenedTo(desk.peer);
  const board = await onPty(questions.peer);
  const file = written(
    ownFolder(),
    'farm.yaml',
    `${realFarmText('Din').replace('shortestOffSeconds: 30', 'shortestOffSeconds: 10')}herald:
  people: [{ name: Ana, phone: '+447700900123', email: ana@example.org }]
  modem: { port: ${modem.port} }
  mail: { host: 127.0.0.1, port: ${mail.port}, security: none, from: shed@example.org }
  broker: { url: 'mqtt://127.0.0.1:${broker.port}', topic: farms/bench }
  webhooks:
${hooks.map(({ port }, place) => `    - { name: hook-${place}, url: 'http://127.0.0.1:${port}/' }`).join('\n')}
`,
  );
  onTestFinished(async () => {
    for (const peer of [mail, broker, ...hooks]) peer.close();
    await Promise.all([modem.close(), board.unplug()]);
  });
  const running = startedLong('run', file, '--board', board.path);
  await running.said('the board answers');
  await expect.poll(() => desk.levels.get(RELAY), { timeout: 20 * SECONDS }).toBe(1);
  // The tank float opens: the tank is low, which is an alarm that goes out on every channel.
  desk.digital.set(4, 1);
  const connections = (): readonly number[] =>
    [mail, broker, ...hooks].map((peer) => peer.seen().connections);
  await expect.poll(() => Math.min(...connections()), { timeout: 20 * SECONDS }).toBeGreaterThan(0);
  questions.forget();
  await sleep(SPAN_SECONDS * SECONDS);
  const late = questions.latestMillis();
  const most = megabytesMost(running.child.pid!);
  running.child.kill('SIGTERM');
  const { code } = await running.ended;
  expect(code).toBe(0);
  expect(most).toBeLessThan(MEMORY.large);
  expect(questions.count()).toBeGreaterThan(SPAN_SECONDS - 3);
  expect(late).toBeLessThan(SECONDS);
}, 110_000);
