import { rmSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { deskBoard, onPty, type PtyBoard } from './pty-board.ts';
import { linesOf, ownFolder, realFarmText, rillkeeper, startedLong, written } from './rillkeeper.ts';
import { textingModem } from './texting-modem.ts';

const SECONDS = 1000;
const LISTED = '+447700900123';

interface Row {
  readonly kind: string;
  readonly alarm?: string;
  readonly who?: string;
}

it('an "ok" that comes when the alarm is over acknowledges it: 1 entry, and status, which told of it as over, no more does', async () => {
  const modem = await textingModem();
  const link = join(ownFolder(), 'board');
  /** Each time a new line, as a cable that is plugged in again is one. */
  const plugged = async (): Promise<PtyBoard> => {
    const desk = deskBoard();
    // The tank float, a contact that opens when the tank is low, is closed.
    desk.digital.set(4, 0);
    const board = await onPty(desk.peer);
    rmSync(link, { force: true });
    symlinkSync(board.path, link);
    return board;
  };
  let board = await plugged();
  onTestFinished(async () => {
    await Promise.all([modem.close(), board.unplug()]);
  });
  const file = written(
    ownFolder(),
    'farm.yaml',
    `${realFarmText('Late')}herald:\n  people: [{ name: Ana, phone: '${LISTED}' }]\n  modem: { port: ${modem.port} }\n`,
  );
  const running = startedLong('run', file, '--board', link);
  await running.said('the board answers');
  const rows = async (): Promise<readonly Row[]> =>
    linesOf((await rillkeeper('book', file, '--json')).stdout).map((line) => JSON.parse(line) as Row);
  const inBook = (kind: string): Promise<void> =>
    expect
      .poll(async () => (await rows()).some((row) => row.kind === kind), { timeout: 60 * SECONDS })
      .toBe(true);
  // The cable is out for longer than the half minute after which that is an alarm, and in again before anybody has answered.
  await board.unplug();
  await inBook('alarm-raised');
  board = await plugged();
  await inBook('alarm-returned');
  const over = /^Over, not acknowledged .*\(high\)/m;
  await expect
    .poll(async () => (await rillkeeper('status', file)).stdout, { timeout: 10 * SECONDS })
    .toMatch(over);
  const { code, stdout } = await rillkeeper('status', file);
  expect([code, stdout.includes('ALARM')]).toEqual([0, false]);

  modem.comes({ from: LISTED, body: 'ok' });
  await inBook('alarm-acknowledged');
  await expect
    .poll(async () => (await rillkeeper('status', file)).stdout, { timeout: 10 * SECONDS })
    .not.toMatch(over);
  running.child.kill('SIGTERM');
  expect((await running.ended).code).toBe(0);
  const acknowledged = (await rows()).filter(({ kind }) => kind === 'alarm-acknowledged');
  expect(acknowledged).toMatchObject([{ alarm: 'board-silent', who: 'Ana' }]);
}, 160_000);
