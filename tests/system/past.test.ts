import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { lateOpen } from '../support/late-open.ts';
import { pathWithTimedatectl } from '../support/made-timedatectl.ts';
import { briskFarm } from './brisk-farm.ts';
import { deskBoard, onPty, type Desk, type PtyBoard } from './pty-board.ts';
import { linesOf, rillkeeper, startedAmid, startedLong, STATE, type Running } from './rillkeeper.ts';

const RELAY = 7;
const BUTTON = 8;
const SECONDS = 1000;
vi.setConfig({ testTimeout: 120 * SECONDS });

const bookIn = (name: string): string =>
  join(STATE, readdirSync(STATE).find((folder) => folder.startsWith(name)) ?? '', 'book.sqlite');

const kindsIn = async (file: string): Promise<readonly string[]> =>
  linesOf((await rillkeeper('book', file, '--json')).stdout).map(
    (line) => (JSON.parse(line) as { readonly kind: string }).kind,
  );
const says = async (file: string): Promise<string> => (await rillkeeper('status', file)).stdout;

describe('a hold by the button, after a kill', () => {
  let desk: Desk;
  let board: PtyBoard;
  let again: Running;
  /** Relay levels from the second start on. */
  let levelsBefore: number;
  beforeEach(async () => {
    desk = deskBoard();
    desk.digital.set(4, 0);
    board = await onPty(desk.peer);
  });
  afterEach(async () => {
    again.child.kill('SIGTERM');
    await again.ended;
    await board.unplug();
  });

  const heldAndKilled = async (file: string): Promise<void> => {
    const running = startedLong('run', file, '--board', board.path);
    await running.said('flood 1 for ');
    desk.digital.set(BUTTON, 0);
    await expect.poll(() => kindsIn(file), { timeout: 30 * SECONDS }).toContain('order');
    desk.digital.set(BUTTON, 1);
    running.child.kill('SIGKILL');
    await running.ended;
    levelsBefore = desk.history(RELAY).length;
  };
  const pumpRan = (): boolean => desk.history(RELAY).slice(levelsBefore).includes(1);

  it('stands though one byte of an old row of the book is wrong, and the host tells that it set the book aside', async () => {
    const { file } = briskFarm('Wold');
    await heldAndKilled(file);
    const db = new Sqlite(bookIn('wold'));
    expect(
      db.prepare(`UPDATE entries SET json = replace(json, 'Wold', 'Wole') WHERE kind = 'started'`).run()
        .changes,
    ).toBe(1);
    db.close();
    again = startedLong('run', file, '--board', board.path);
    await again.talked('The book was set aside: entry 2 does not fit its check sum');
    await again.talked('Going on where the host before this one ended');
    await expect.poll(() => says(file), { timeout: 30 * SECONDS }).toMatch(/^Held by the button until /m);
    await new Promise((go) => setTimeout(go, 12 * SECONDS));
    expect(pumpRan()).toBe(false);
    expect(await kindsIn(file)).toContain('damaged-file-set-aside');
  });

  it('stands though the book opens after 9 s only: until then the host itself holds the pump, and says why', async () => {
    const { file } = briskFarm('Weir');
    await heldAndKilled(file);
    again = startedAmid(lateOpen(9), 'run', file, '--board', board.path);
    await again.talked('The book has not opened yet');
    await again.talked('The book has opened after all');
    await expect.poll(() => says(file), { timeout: 30 * SECONDS }).toMatch(/^Held by the button until /m);
    await new Promise((go) => setTimeout(go, 12 * SECONDS));
    expect(pumpRan()).toBe(false);
    const kinds = await kindsIn(file);
    expect(kinds).toContain('gap-recorded');
    // The button's, the host's own, and the button's again.
    expect(kinds.filter((kind) => kind === 'order')).toHaveLength(3);
    // Nobody is called for a disk that is slow for some seconds.
    expect(kinds).not.toContain('alarm-raised');
  });

  it('of a farm that its file names anew is not forgotten in silence: the host holds the pump, and says where it lies', async () => {
    const { file } = briskFarm('Rill');
    await heldAndKilled(file);
    writeFileSync(file, readFileSync(file, 'utf8').replace('farm: Rill', 'farm: Brook'));
    again = startedLong('run', file, '--board', board.path);
    await again.talked(
      `lies in ${join(STATE, 'rill')} and IS NOT USED: the folder of Brook is ${join(STATE, 'brook')}`,
    );
    await again.talked(`mv ${join(STATE, 'rill')} ${join(STATE, 'brook')}`);
    await expect.poll(() => says(file), { timeout: 30 * SECONDS }).toMatch(/Held by the host until /m);
    await new Promise((go) => setTimeout(go, 12 * SECONDS));
    expect(pumpRan()).toBe(false);
  });

  it('that cannot be read any more is told on stderr and by an alarm, and no flood is given meanwhile', async () => {
    const { file } = briskFarm('Wick');
    await heldAndKilled(file);
    const db = new Sqlite(bookIn('wick'));
    db.exec(`UPDATE kept SET json = '{}'`);
    db.close();
    // Without a network that has set it the clock would be in doubt, and no time of day be told.
    const PATH = pathWithTimedatectl('echo yes');
    again = startedAmid({ PATH }, 'run', file, '--board', board.path);
    await again.talked('a hold of the pump and alarms from before may be forgotten');
    await again.said('What was known before this start cannot be read.');
    await expect
      .poll(() => says(file), { timeout: 30 * SECONDS })
      .toMatch(/^ALARM: what was known is not read\. Held by the host until /m);
    await new Promise((go) => setTimeout(go, 12 * SECONDS));
    expect(pumpRan()).toBe(false);
  });
});
