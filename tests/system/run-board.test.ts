import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { deskBoard, onPty, type PtyBoard } from './pty-board.ts';
import { ownFolder, realFarmText, rillkeeper, type Running, started, STATE, written } from './rillkeeper.ts';

const FOLDER = ownFolder();
const farm = (name: string, deadBoard: string): string =>
  written(
    FOLDER,
    // A file in which the farm has another name than before is held for a while.
    `${name}.yaml`,
    realFarmText(name)
      .replace('shortestOffSeconds: 30', 'shortestOffSeconds: 10')
      .replace('deadBoard: plain-timer', `deadBoard: ${deadBoard}`),
  );
const RELAY = 7;

const desk = deskBoard();
let board: PtyBoard;
beforeAll(async () => {
  // The tank float, a contact that opens when the tank is low, is closed.
  desk.digital.set(4, 0);
  board = await onPty(desk.peer);
});
afterAll(async () => {
  await board.unplug();
});

/** A flood begins when the pump has been off for its 10 s; then the relay is pulled. */
const flooding = async (file: string): Promise<Running> => {
  const running = started('run', file, '--board', board.path);
  await running.said('flood 1 for 20 min');
  await expect.poll(() => desk.levels.get(RELAY), { timeout: 5000 }).toBe(1);
  return running;
};

describe('run --board on a serial line', () => {
  it('floods, is told of by status, keeps the port to itself, and at SIGTERM lets go of the relay', async () => {
    const file = farm('Hill', 'pump-stops');
    const running = await flooding(file);
    const [status, second, twin] = await Promise.all([
      rillkeeper('status', file),
      rillkeeper('board', 'info', board.path),
      rillkeeper('run', file, '--board', 'auto'),
    ]);
    expect([twin.code, twin.stderr.includes('one pump has one host')]).toEqual([3, true]);
    expect(twin.stderr).toContain(`(process ${running.child.pid})`);
    expect(status.stdout).toMatch(/^Flooding since \d\d:\d\d, \d+ min to go\.$/m);
    expect(status.stdout).toMatch(/nobody keeps the plants/);
    expect([second.code, second.stderr.includes('another program has this port')]).toEqual([69, true]);
    running.child.kill('SIGTERM');
    const { code, stdout, stderr } = await running.ended;
    expect(code).toBe(0);
    expect(stdout).toMatch(/flood 1 withheld: stopped after \d+ of 20 min: the run ended/);
    expect(stderr).toMatch(/The relay is let go: the pump stands/);
    await expect.poll(() => desk.levels.get(RELAY), { timeout: 5000 }).toBe(0);
  });

  it('killed outright leaves the relay as it is on a stock board, until the port is opened again', async () => {
    const file = farm('Ridge', 'pump-stops');
    const running = await flooding(file);
    const says = async (): Promise<string> => (await rillkeeper('status', file)).stdout;
    await expect.poll(says, { timeout: 10_000 }).toMatch(/^Flooding since /m);
    running.child.kill('SIGKILL');
    await running.ended;
    expect(desk.levels.get(RELAY)).toBe(1);
    expect(await says()).toMatch(/^Flooding since /m);
    const again = started('run', file, '--board', board.path);
    await again.said('the board answers; its pump is told off first');
    await expect.poll(() => desk.levels.get(RELAY), { timeout: 5000 }).toBe(0);
    again.child.kill('SIGINT');
    expect((await again.ended).code).toBe(0);
  });

  it('floods on when nobody reads what it says and its terminal is closed, until SIGTERM', async () => {
    const running = await flooding(farm('Vale', 'pump-stops'));
    running.child.stdout?.destroy();
    running.child.stderr?.destroy();
    running.child.kill('SIGHUP');
    // Long enough for its next words: the button is pressed, and a hold is told.
    desk.digital.set(8, 0);
    await expect.poll(() => desk.levels.get(RELAY), { timeout: 8000 }).toBe(0);
    desk.digital.set(8, 1);
    expect([running.child.exitCode, running.child.signalCode]).toEqual([null, null]);
    // What is new is in the status within a second.
    const says = async (): Promise<string> => (await rillkeeper('status', farm('Vale', 'pump-stops'))).stdout;
    await expect.poll(says, { timeout: 5000 }).toMatch(/^Held by the button until /m);
    running.child.kill('SIGTERM');
    await running.ended;
    expect(running.child.signalCode).toBeNull();
  });

  it('lets go of the relay at a defect in the middle of a flood, and ends with 70', async () => {
    const flag = join(FOLDER, 'now');
    const defect = `setInterval(() => { if (require('node:fs').existsSync(${JSON.stringify(flag)})) throw new Error('a made defect'); }, 100).unref();`;
    process.env['NODE_OPTIONS'] = `--require ${written(FOLDER, 'defect.cjs', defect)}`;
    const starting = flooding(farm('Brook', 'pump-stops'));
    delete process.env['NODE_OPTIONS'];
    const running = await starting;
    written(FOLDER, 'now', '');
    const { code, stderr } = await running.ended;
    expect(code).toBe(70);
    expect(stderr).toMatch(
      /A defect in rillkeeper; the pump is given up: the relay of a stock board is let go[^]*a made defect/,
    );
    await expect.poll(() => desk.levels.get(RELAY), { timeout: 5000 }).toBe(0);
  });

  it('on a normally closed contact pulls the relay through the rest, and lets go of it at the end', async () => {
    const running = started('run', farm('Dale', 'pump-runs'), '--board', board.path);
    await running.said('the board answers; its pump is told off first');
    await expect.poll(() => desk.levels.get(RELAY), { timeout: 5000 }).toBe(1);
    running.child.kill('SIGINT');
    const { code, stderr } = await running.ended;
    expect(code).toBe(0);
    expect(stderr).toMatch(/the pump now runs, down to the hard-wired float/);
    await expect.poll(() => desk.levels.get(RELAY), { timeout: 5000 }).toBe(0);
  });
});

describe('status', () => {
  it('of a simulated shed that nobody runs any more says in each heading that it is none of the real one', async () => {
    const file = farm('Mock', 'plain-timer');
    await rillkeeper('run', file, '--board', 'demo', '--speed', 'max', '--for', '1h');
    const path = join(STATE, 'mock-demo', 'status.json');
    const { writtenAt, ...rest } = JSON.parse(readFileSync(path, 'utf8')) as { writtenAt: string };
    const old = new Date(Date.parse(writtenAt) - 60_000).toISOString();
    writeFileSync(path, JSON.stringify({ ...rest, writtenAt: old }));
    const { code, stdout } = await rillkeeper('status', file);
    expect(code).toBe(1);
    expect(stdout.replaceAll(/\s+/g, ' ')).toMatch(/^Mock, in a simulated shed at .*nobody runs since/);
    expect(stdout).not.toContain('NO HOST');
    expect(stdout.match(/^.*, simulated\b.*:/gm)).toHaveLength(3);
  });

  it('of a farm whose host never ran here ends with 1 and says how to start one', async () => {
    const { code, stderr } = await rillkeeper('status', farm('Nowhere', 'plain-timer'));
    expect(code).toBe(1);
    expect(stderr).toMatch(/No host has run for Nowhere on this machine/);
  });
});
