import { describe, expect, it, vi } from 'vitest';
import { briskFarm } from './brisk-farm.ts';
import { emulatedOnPty } from './emulated-pty.ts';
import { hook } from './hook.ts';
import { linesOf, ownFolder, rillkeeper, startedLong, written, type Running } from './rillkeeper.ts';

/** Fault 3 on the real process, before a board with the compiled firmware. */
const SECONDS = 1000;
vi.setConfig({ testTimeout: 120 * SECONDS });

/** To the loader of modules (module.register, Node.js documentation): the part that rehearses fails as it is loaded. */
const LOADER = `export const load = (url, context, next) => {
  if (url.includes('rehearse-first')) throw new Error('a made defect');
  return next(url, context);
};`;
const DEFECT = written(
  ownFolder(),
  'defect.cjs',
  `require('node:module').register('data:text/javascript,' + encodeURIComponent(${JSON.stringify(LOADER)}));`,
);

/** A program with that defect. */
const broken = (...args: readonly string[]): Running => {
  process.env['NODE_OPTIONS'] = `--require ${DEFECT}`;
  const running = startedLong(...args);
  delete process.env['NODE_OPTIONS'];
  return running;
};

describe('a program with a defect in what it does before its first flood', () => {
  it('fails twice, comes up in safe mode at its third start without that, floods and calls; mended it is as ever', async () => {
    const { url, got, close } = await hook();
    const herald = `\nherald:\n  people: [{ name: Ana, phone: '+447700900123' }]\n  webhooks: [{ name: co-op, url: '${url}' }]\n`;
    const { file, farm, wiring } = briskFarm('Loop', herald);
    const board = await emulatedOnPty(farm, wiring);
    const run = ['run', file, '--board', board.path, '--rehearse'];

    for (const start of [1, 2]) {
      const { code, stderr } = await broken(...run).ended;
      expect([start, code, stderr.includes('a made defect')]).toEqual([start, 70, true]);
      expect(stderr).not.toContain('SAFE MODE');
    }
    // The board has heard nothing: it keeps the plants by its table, and rests as after power came.
    expect(board.isPulled()).toBe(false);

    const third = broken(...run);
    await third.talked('SAFE MODE: this host has started 3 times within 10 min without being asked to stop');
    await third.said('flood 1 for 1 min');
    await expect.poll(board.isPulled, { timeout: 5 * SECONDS }).toBe(true);
    await third.said('ALARM');
    const call = () => got.find(({ text }) => text.includes('The host runs with as little as it can'));
    await expect.poll(call, { timeout: 20 * SECONDS }).toBeDefined();
    third.child.kill('SIGTERM');
    const { code, stdout, stderr } = await third.ended;
    expect(code).toBe(0);
    expect(stdout).toContain('after 3 starts');
    expect(stderr).toContain('The board floods by its own table from now on.');
    const table = await rillkeeper('board', 'table', file, '--board', board.path, '--json');
    expect(JSON.parse(table.stdout)).toMatchObject({ same: true });

    // It was asked to stop, and then mended.
    const mended = startedLong('run', file, '--board', board.path);
    await mended.said('the board answers');
    mended.child.kill('SIGTERM');
    expect((await mended.ended).stderr).not.toContain('SAFE MODE');
    await board.unplug();
    close();
    const book = await rillkeeper('book', file, '--json');
    const alarms = linesOf(book.stdout).filter((line) => line.includes('"alarm-raised"'));
    expect(alarms.filter((line) => line.includes('"safe-mode"'))).toHaveLength(1);
  });
});
