import { readFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { hook } from './hook.ts';
import { deskBoard, onPty, type Desk, type PtyBoard } from './pty-board.ts';
import {
  linesOf,
  ownFolder,
  realFarmText,
  rillkeeper,
  startedLong,
  written,
  type Running,
} from './rillkeeper.ts';

const FOLDER = ownFolder();
const RELAY = 7;
const SECONDS = 1000;
/** Each starts the host twice, or waits for the half minute after which a silent board is an alarm. */
vi.setConfig({ testTimeout: 120 * SECONDS });

const farm = (name: string, more = ''): string =>
  written(
    FOLDER,
    `${name}.yaml`,
    `${realFarmText(name)
      .replace('shortestOffSeconds: 30', 'shortestOffSeconds: 10')
      .replace('deadBoard: plain-timer', 'deadBoard: pump-stops')}\n${more}`,
  );

interface Row {
  readonly number: number;
  readonly kind: string;
  readonly alarm?: string;
  readonly outcome?: string;
}

/** The whole book of a farm, as data. */
const bookOf = async (file: string): Promise<readonly Row[]> => {
  const { stdout } = await rillkeeper('book', file, '--json');
  return linesOf(stdout).map((line) => JSON.parse(line) as Row);
};

/** Once the book has an entry of that kind. */
const inBook = (file: string, wanted: string): Promise<void> =>
  expect
    .poll(async () => (await bookOf(file)).some(({ kind }) => kind === wanted), { timeout: 30 * SECONDS })
    .toBe(true);

describe('the host on a real board', () => {
  let desk: Desk;
  let board: PtyBoard;
  beforeEach(async () => {
    desk = deskBoard();
    // The tank float, a contact that opens when the tank is low, is closed.
    desk.digital.set(4, 0);
    board = await onPty(desk.peer);
  });
  afterEach(async () => {
    await board.unplug();
  });

  const flooding = async (file: string, number: number): Promise<Running> => {
    const running = startedLong('run', file, '--board', board.path);
    await running.said(`flood ${number} for `);
    await expect.poll(() => desk.levels.get(RELAY), { timeout: 15 * SECONDS }).toBe(1);
    return running;
  };

  it('killed in a flood knows at its next start of that flood, judges it, and counts on', async () => {
    const file = farm('Mound');
    const running = await flooding(file, 1);
    // What is known is written with each entry.
    await inBook(file, 'flood-started');
    running.child.kill('SIGKILL');
    await running.ended;
    const again = startedLong('run', file, '--board', board.path);
    await again.talked('Going on where the host before this one ended, less than a minute ago.');
    await again.said('flood 2 for ');
    again.child.kill('SIGTERM');
    expect((await again.ended).code).toBe(0);
    const book = await bookOf(file);
    expect(book.map(({ number }) => number)).toEqual(book.map((_, place) => place + 1));
    const kinds = book.map(({ kind }) => kind);
    expect(kinds.filter((kind) => kind === 'gap-recorded')).toHaveLength(1);
    expect(kinds.filter((kind) => kind === 'verdict')).toHaveLength(2);
    expect(kinds.at(-1)).toBe('stopped');
    expect(kinds).toContain('settings');
  });

  it('held by the button goes on holding after a kill', async () => {
    const file = farm('Knoll');
    const running = await flooding(file, 1);
    desk.digital.set(8, 0);
    await expect.poll(() => desk.levels.get(RELAY), { timeout: 20 * SECONDS }).toBe(0);
    desk.digital.set(8, 1);
    await inBook(file, 'order');
    running.child.kill('SIGKILL');
    await running.ended;
    const again = startedLong('run', file, '--board', board.path);
    await again.talked('Going on where the host before this one ended');
    const says = async (): Promise<string> => (await rillkeeper('status', file)).stdout;
    await expect.poll(says, { timeout: 30 * SECONDS }).toMatch(/^Held by the button until /m);
    expect(desk.levels.get(RELAY)).toBe(0);
    again.child.kill('SIGTERM');
    await again.ended;
  });

  it('runs the last good farm file where the file has become bad, and says so', async () => {
    const file = farm('Tor');
    const running = await flooding(file, 1);
    running.child.kill('SIGTERM');
    await running.ended;
    written(FOLDER, 'Tor.yaml', readFileSync(file, 'utf8').replace('benches:', 'bunches:'));
    const again = startedLong('run', file, '--board', board.path);
    await again.talked('THE FARM FILE IS NOT USED. The last good one runs instead');
    await again.said('the board answers');
    again.child.kill('SIGTERM');
    expect((await again.ended).code).toBe(0);
  });

  it('runs the last good farm file where the new one has lost its pins, at the first start and at the second', async () => {
    const file = farm('Fell');
    const running = startedLong('run', file, '--board', board.path);
    await running.said('the board answers');
    running.child.kill('SIGTERM');
    await running.ended;
    written(FOLDER, 'Fell.yaml', readFileSync(file, 'utf8').replace(/^board:\n(?:(?: .*)?\n)+/m, ''));
    expect((await rillkeeper('check', file)).code).toBe(0);
    for (const start of [1, 2]) {
      const again = startedLong('run', file, '--board', board.path);
      const heard = await Promise.race([again.said('the board answers').then(() => 'runs'), again.ended]);
      again.child.kill('SIGTERM');
      expect([start, heard]).toEqual([start, 'runs']);
      expect((await again.ended).stderr).toContain('board: found nothing');
    }
  });
});

describe('the host whose board is unplugged', () => {
  it('calls by webhook within 5 s of the alarm, and the book has the delivery', async () => {
    const desk = deskBoard();
    desk.digital.set(4, 0);
    const board = await onPty(desk.peer);
    const { url, got, close } = await hook();
    const file = farm(
      'Scar',
      `herald:\n  people: [{ name: Ana, phone: '+447700900123' }]\n  webhooks: [{ name: co-op, url: '${url}' }]\n`,
    );
    const running = startedLong('run', file, '--board', board.path);
    await running.said('the board answers');
    await board.unplug();
    await running.said('ALARM');
    const raisedAt = performance.now();
    // In the morning the word that all is well may come before it.
    const call = () => got.find(({ text }) => text.includes('The board has not answered'));
    await expect.poll(call, { timeout: 30 * SECONDS }).toBeDefined();
    expect(call()!.at - raisedAt).toBeLessThan(5 * SECONDS);
    running.child.kill('SIGTERM');
    expect((await running.ended).code).toBe(0);
    close();
    const deliveries = (await bookOf(file)).filter(({ kind }) => kind === 'delivery');
    expect(deliveries).toContainEqual(
      expect.objectContaining({ alarm: 'board-silent', outcome: 'delivered' }),
    );
  });
});
