import { expect, it } from 'vitest';
import { startPeers } from '../support/peers.ts';
import { deskBoard, onPty } from './pty-board.ts';
import { ownFolder, realFarmText, startedLong, written } from './rillkeeper.ts';

const SECONDS = 1000;
const RELAY = 7;

it('a modem that answers, asked by the thread of the herald, ends neither the host nor the flood; its text goes out', async () => {
  const peers = await startPeers('well');
  const desk = deskBoard();
  // The tank float, a contact that opens when the tank is low, is closed.
  desk.digital.set(4, 0);
  const board = await onPty(desk.peer);
  const text = realFarmText('Fell').replace('shortestOffSeconds: 30', 'shortestOffSeconds: 10');
  const file = written(ownFolder(), 'farm.yaml', `${text}${peers.herald}`);
  const running = startedLong('run', file, '--board', board.path);
  const dialled = (): string => peers.dialled.join('');
  await expect.poll(dialled, { timeout: 20 * SECONDS }).toContain('AT+CREG?');
  await expect.poll(() => desk.levels.get(RELAY), { timeout: 20 * SECONDS }).toBe(1);
  await board.unplug();
  await running.said('ALARM');
  await expect.poll(dialled, { timeout: 20 * SECONDS }).toContain('AT+CMGS="+447700900123"');
  await expect.poll(dialled, { timeout: 20 * SECONDS }).toContain('board');
  running.child.kill('SIGTERM');
  const { code } = await running.ended;
  await peers.close();
  expect(code).toBe(0);
}, 110_000);
