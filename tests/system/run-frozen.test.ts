import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it, vi } from 'vitest';
import { slowDisk } from '../support/slow-disk.ts';
import { BRISK, briskFarm } from './brisk-farm.ts';
import { emulatedOnPty } from './emulated-pty.ts';
import { deskBoard, onPty } from './pty-board.ts';
import { linesOf, startedLong, type Running } from './rillkeeper.ts';

/** Fault 26 on the real process, side by side on both kinds of board: each stands for a minute. */
const SECONDS = 1000;
const FROZEN_SECONDS = 62;
/** Into the flood. */
const FROZEN_AT_SECONDS = 3;
/** Each write: one is in hand whenever the host is stopped, and comes back only some looks after it goes on again. */
const DISK_SECONDS = 2;
/** By which a host and a board that keeps the plants may differ about the end of a run. */
const TOLERANCE_SECONDS = 3;
/** How long the host is seen to go on. */
const AFTER_SECONDS = 12;
vi.setConfig({ testTimeout: 150 * SECONDS });

interface Line {
  readonly kind: string;
  readonly at: number;
  readonly [field: string]: unknown;
}

const frozen = async ({ child }: Running): Promise<void> => {
  child.kill('SIGSTOP');
  await sleep(FROZEN_SECONDS * SECONDS);
  child.kill('SIGCONT');
};

/** What it has said, once it has gone on for a while. */
const saidBy = async (
  { child, ended }: Running,
  end: 'SIGTERM' | 'SIGKILL',
): Promise<(...kinds: string[]) => readonly Line[]> => {
  await sleep(AFTER_SECONDS * SECONDS);
  expect([child.exitCode, child.signalCode]).toEqual([null, null]);
  child.kill(end);
  const { stdout } = await ended;
  const lines = linesOf(stdout).map((line) => JSON.parse(line) as Line);
  return (...kinds) => lines.filter(({ kind }) => kinds.includes(kind));
};

describe(`a host that is stopped for ${FROZEN_SECONDS} s, longer than its flood and the rest of that minute`, () => {
  it.concurrent(
    'on stock firmware ends it at its first look, begins no other, and calls nobody about its slow disk',
    async ({ expect }) => {
      const desk = deskBoard();
      desk.digital.set(4, 0);
      const { file, wiring } = briskFarm('Doze');
      const board = await onPty(desk.peer);
      Object.assign(process.env, slowDisk(DISK_SECONDS));
      const running = startedLong('run', file, '--board', board.path, '--json');
      delete process.env['LD_PRELOAD'];
      const level = () => desk.levels.get(wiring.relay.pin);
      await running.said('"flood-started"');
      await expect.poll(level, { timeout: 5 * SECONDS }).toBe(1);
      await sleep(FROZEN_AT_SECONDS * SECONDS);
      await frozen(running);
      await expect.poll(level, { timeout: 3 * SECONDS }).toBe(0);
      const told = desk.history(wiring.relay.pin).length;
      // To end well it would wait for its disk longer than this test.
      const said = await saidBy(running, 'SIGKILL');
      await board.unplug();
      expect(desk.history(wiring.relay.pin).slice(told).includes(1)).toBe(false);
      expect(said('flood-started', 'flood-retried')).toHaveLength(1);
      expect(said('verdict')).toMatchObject([{ flood: 1 }]);
      expect(said('alarm-raised')).toEqual([]);
    },
  );

  it.concurrent(
    'on the compiled firmware finds the flood ended in time by the board, and has the pump again within 10 s',
    async ({ expect }) => {
      const { file, farm, wiring } = briskFarm('Nap');
      const board = await emulatedOnPty(farm, wiring);
      const running = startedLong('run', file, '--board', board.path, '--json');
      await running.said('"flood-started"');
      await expect.poll(board.isPulled, { timeout: 5 * SECONDS }).toBe(true);
      await sleep(FROZEN_AT_SECONDS * SECONDS);
      await frozen(running);
      await running.talked('Not in charge of the pump');
      const said = await saidBy(running, 'SIGTERM');
      expect(running.child.exitCode).toBe(0);
      await board.unplug();
      const [begun, over] = board.relay;
      expect(board.relay).toHaveLength(2);
      const [kept, ...more] = said('kept-run');
      expect(kept).toMatchObject({ begunBy: 'host', endedBy: 'board' });
      expect(more).toEqual([]);
      // Whole seconds of the board, and of what is left when the command leaves the host: so far they may be apart before it asks anew.
      for (const ran of [(over!.at - begun!.at) / SECONDS, kept!['seconds'] as number])
        expect(Math.abs(ran - BRISK.floodSeconds)).toBeLessThan(TOLERANCE_SECONDS);
      const found = said('link-lost', 'link-found');
      expect(found.map(({ kind, keeper }) => [kind, keeper])).toEqual([
        ['link-found', 'kept'],
        ['link-lost', 'keeps'],
        ['link-found', 'kept'],
      ]);
      expect(found[2]!.at - found[1]!.at).toBeLessThan(10 * SECONDS);
      expect(said('flood-started', 'flood-retried')).toHaveLength(1);
      expect(said('verdict')).toMatchObject([{ flood: 1 }]);
      expect(said('alarm-raised')).toEqual([]);
    },
  );
});
