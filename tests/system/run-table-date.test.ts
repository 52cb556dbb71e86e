import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { expect, it, onTestFinished, vi } from 'vitest';
import { rowSum } from '../../firmware-host/storage/journal/row-sum.ts';
import { emulatedOnPty } from './emulated-pty.ts';
import { realFarm } from './keeper-farms.ts';
import { rillkeeper, startedAmid, STATE, type Running } from './rillkeeper.ts';
import { steppedClock } from './stepped-clock.ts';

const SECONDS = 1000;
vi.setConfig({ testTimeout: 150 * SECONDS });

/** While a host starts its clock is being set, and a step is believed: this one has run for longer. */
const SETTING_MILLIS = 16 * 60 * SECONDS;

interface Kept {
  readonly state: { readonly clock: { startedAt: number } };
}

const begunLongAgo = (book: string): void => {
  const db = new Sqlite(book);
  const kept = JSON.parse(
    db.prepare<[], { json: string }>('SELECT json FROM kept').get()?.json ?? '',
  ) as Kept;
  kept.state.clock.startedAt -= SETTING_MILLIS;
  const json = JSON.stringify(kept);
  db.prepare('UPDATE kept SET json = ?, sum = ?').run(json, rowSum(json));
  db.close();
};

it('a clock that stands half a year ahead after a restart gives the board no table of its date', async () => {
  const { file, farm, wiring } = realFarm('Fen');
  const board = await emulatedOnPty(farm, wiring);
  let host: Running | null = null;
  onTestFinished(async () => {
    host?.child.kill('SIGKILL');
    await host?.ended;
    await board.unplug();
  });
  const boardSays = async (): Promise<string> =>
    (
      JSON.parse((await rillkeeper('status', file, '--json')).stdout || '{"board":{"says":""}}') as {
        board: { says: string };
      }
    ).board.says;
  const runUntil = async (date: string, says: RegExp): Promise<string> => {
    host = startedAmid(steppedClock(`@${date} 12:00:00`).env, 'run', file, '--board', board.path);
    await expect.poll(boardSays, { timeout: 60 * SECONDS }).toMatch(says);
    const said = await boardSays();
    host.child.kill('SIGTERM');
    expect((await host.ended).code).toBe(0);
    return said;
  };
  await runUntil('2026-07-14', /Its table is that of the plan\./);
  const { seq } = JSON.parse(
    (await rillkeeper('board', 'table', file, '--board', board.path, '--json')).stdout,
  ) as { readonly seq: number };
  begunLongAgo(join(STATE, 'fen', 'book.sqlite'));
  const said = await runUntil('2027-01-14', /This computer has the pump\. Its table is number \d+, in slot/);
  expect(said).toContain(`Its table is number ${seq}, in slot`);
});
