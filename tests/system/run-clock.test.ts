import Database from 'better-sqlite3';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bookPath } from '../../firmware-host/storage/journal/book-path.ts';
import { rowSum } from '../../firmware-host/storage/journal/row-sum.ts';
import { stateFolder } from '../../firmware-host/storage/state-folder.ts';
import { deskBoard, onPty, type Desk, type PtyBoard } from './pty-board.ts';
import {
  type Ended,
  linesOf,
  ownFolder,
  realFarmText,
  type Running,
  started,
  startedAmid,
  STATE,
  written,
} from './rillkeeper.ts';
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
  readonly order?: string;
  readonly alarm?: string;
  readonly who?: string;
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

/** As if the host that has ended had begun long before: by then its clock is no longer just being set. */
const beganEarlier = (name: string): void => {
  const book = new Database(bookPath(stateFolder(name, { RILLKEEPER_STATE: STATE })));
  const [kept] = book.prepare<[], { json: string }>('SELECT json FROM kept').all();
  const whole = JSON.parse(kept!.json) as { state: { clock: { startedAt: number } } };
  whole.state.clock.startedAt -= 20 * 60_000;
  const json = JSON.stringify(whole);
  book.prepare('UPDATE kept SET json = ?, sum = ?').run(json, rowSum(json));
  book.close();
};

describe('the word of a person at the host that the clock is right', () => {
  const OF_DAYS = 2 * 24 * 3600 * 1000;

  it('is taken once by a host that doubts it, which then believes the date that was set', async () => {
    const clock = steppedClock('+0');
    const file = farm('Word');
    await ended(await runUnder(file, clock));
    beganEarlier('Word');
    const startedAt = Date.now();
    const running = startedAmid(clock.env, 'run', file, '--board', board.path, '--json');
    await running.said('"link-found"');
    const word = (): Promise<Ended> => startedAmid(clock.env, 'clock', file, '--right').ended;
    expect(await word()).toMatchObject({
      code: 1,
      stderr: expect.stringContaining('doubts its clock') as unknown,
    });
    clock.set('+2d');
    await running.said('"clock-stepped"');
    const taken = await word();
    expect([taken.code, taken.stdout]).toEqual([
      0,
      expect.stringContaining('believes its clock again') as unknown,
    ]);
    expect((await word()).code).toBe(1);
    const entries = await ended(running);
    const by = expect.stringMatching(/ at the host$/) as unknown;
    expect(entries.filter(({ order }) => order === 'clock-right')).toMatchObject([{ who: by }]);
    expect(entries.filter(({ kind }) => kind === 'alarm-acknowledged')).toMatchObject([
      { alarm: 'clock-stepped', who: by },
    ]);
    // In doubt no date is written; with the word it is the one that was set.
    expect(entries.find(({ alarm }) => alarm === 'clock-stepped')?.wall).toBe('unknown');
    expect(Date.parse(entries.at(-1)?.wall ?? 'none') - startedAt).toBeGreaterThan(OF_DAYS - 60_000);
  }, 120_000);
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
