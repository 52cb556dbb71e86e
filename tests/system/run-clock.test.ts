import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { deskBoard, onPty, type Desk, type PtyBoard } from './pty-board.ts';
import { linesOf, ownFolder, realFarmText, type Running, started, written } from './rillkeeper.ts';
import { steppedClock, type SteppedClock } from './stepped-clock.ts';

/** Faults 21, 22, 26 and 29 on the real process, with a stock board on a serial line. */
const RELAY = 7;
const FOLDER = ownFolder();
/** One name for each host: one that found the state of another would rest first, as after a flood. */
const farm = (name: string): string =>
  written(
    FOLDER,
    `${name}.yaml`,
    realFarmText(name).replace('shortestOffSeconds: 30', 'shortestOffSeconds: 10'),
  );

interface Line {
  readonly kind: string;
  readonly wall?: string | null;
  readonly reason?: string;
  readonly pump?: string;
}
const entriesOf = (text: string): readonly Line[] => linesOf(text).map((line) => JSON.parse(line) as Line);

let desk: Desk;
let board: PtyBoard;
beforeAll(async () => {
  desk = deskBoard();
  // The tank float, a contact that opens when the tank is low, is closed.
  desk.digital.set(4, 0);
  board = await onPty(desk.peer);
});
afterAll(async () => {
  await board.unplug();
});

const runUnder = async (file: string, clock: SteppedClock | null): Promise<Running> => {
  Object.assign(process.env, clock?.env);
  const running = started('run', file, '--board', board.path, '--json');
  for (const name of Object.keys(clock?.env ?? {})) Reflect.deleteProperty(process.env, name);
  await running.said('"flood-started"');
  await expect.poll(() => desk.levels.get(RELAY), { timeout: 5000 }).toBe(1);
  return running;
};
const ended = async (running: Running): Promise<readonly Line[]> => {
  running.child.kill('SIGTERM');
  const { code, stdout } = await running.ended;
  expect(code).toBe(0);
  return entriesOf(stdout);
};
const starts = (entries: readonly Line[]): number =>
  entries.filter(({ kind }) => kind === 'flood-started').length;

describe('a wall clock that is set while the host runs', () => {
  it.each([
    ['two days ahead', 'Ahead', '+2d'],
    ['three hours back', 'Back', '-3h'],
    ['back to 1970', 'Old', '@1970-01-01 00:00:10'],
    ['to the year 2038', 'Late', '@2038-01-19 03:14:06'],
  ])(
    '%s neither ends the flood under way nor starts another, and the pump stays on',
    async (_, name, text) => {
      const clock = steppedClock('+0');
      const running = await runUnder(farm(name), clock);
      const before = desk.history(RELAY).length;
      clock.set(text);
      await sleep(5000);
      expect(desk.history(RELAY).slice(before)).toEqual([]);
      expect(desk.levels.get(RELAY)).toBe(1);
      const entries = await ended(running);
      expect(starts(entries)).toBe(1);
      const off = entries.filter(({ kind, pump }) => kind === 'pump-asked' && pump === 'off');
      // At the start, and at the end.
      expect(off).toHaveLength(2);
      const [first, last] = [entries[0]!.wall, entries.at(-1)!.wall];
      expect(last).not.toBe(first);
    },
  );
});

describe('a host that wakes in 1970', () => {
  it('floods after its 10 s, as on the hottest part of the plan, and writes no date', async () => {
    const running = await runUnder(farm('Dark'), steppedClock('@1970-01-01 00:00:10'));
    const entries = await ended(running);
    expect(entries.find(({ kind }) => kind === 'flood-started')?.reason).toMatch(
      /first flood after the start/,
    );
    expect(entries.filter(({ wall }) => typeof wall === 'string' && wall !== 'unknown')).toEqual([]);
  });
});

describe('a host that is stopped for 8 s by SIGSTOP in a flood', () => {
  it('goes on with it: no flood is made up for, and the pump is asked nothing', async () => {
    const running = await runUnder(farm('Sleep'), null);
    const before = desk.history(RELAY).length;
    running.child.kill('SIGSTOP');
    await sleep(8000);
    running.child.kill('SIGCONT');
    await sleep(3000);
    expect(desk.history(RELAY).slice(before)).toEqual([]);
    const entries = await ended(running);
    expect(starts(entries)).toBe(1);
  });
});
