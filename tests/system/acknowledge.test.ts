import { rmSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { deskBoard, onPty } from './pty-board.ts';
import { linesOf, ownFolder, realFarmText, rillkeeper, startedLong, written } from './rillkeeper.ts';

const SECONDS = 1000;

it('acknowledge at the host: the alarm is told as seen, the book says by whom, and a second time nothing waits', async () => {
  const board = await onPty(deskBoard().peer);
  const link = join(ownFolder(), 'board');
  symlinkSync(board.path, link);
  const file = written(ownFolder(), 'farm.yaml', realFarmText('Seen'));
  const running = startedLong('run', file, '--board', link);
  onTestFinished(() => board.unplug());
  await running.said('the board answers');
  await board.unplug();
  rmSync(link, { force: true });
  const status = async (): Promise<string> => (await rillkeeper('status', file)).stdout;
  await expect
    .poll(status, { timeout: 60 * SECONDS })
    .toMatch(/ALARM \(high, nobody has answered\) The board/);

  const first = await rillkeeper('acknowledge', file);
  expect([first.code, first.stdout]).toEqual([
    0,
    expect.stringMatching(/^\(high\) The board[^]*Acknowledged\./) as unknown,
  ]);
  await expect.poll(status, { timeout: 10 * SECONDS }).toMatch(/ALARM \(high, acknowledged\) The board/);
  expect(await rillkeeper('acknowledge', file)).toMatchObject({
    code: 0,
    stdout: 'No alarm waits to be acknowledged.\n',
  });

  // Nobody doubts the clock: no host takes the word, and none is left behind.
  const clock = await rillkeeper('clock', file, '--right');
  expect([clock.code, clock.stderr]).toEqual([
    1,
    expect.stringContaining('none doubts its clock') as unknown,
  ]);

  running.child.kill('SIGTERM');
  expect((await running.ended).code).toBe(0);
  const acknowledged = linesOf((await rillkeeper('book', file, '--json')).stdout)
    .map((line) => JSON.parse(line) as { kind: string; alarm?: string; who?: string })
    .filter(({ kind }) => kind === 'alarm-acknowledged');
  expect(acknowledged).toMatchObject([
    { alarm: 'board-silent', who: expect.stringMatching(/ at the host$/) as unknown },
  ]);
  const none = await rillkeeper('acknowledge', written(ownFolder(), 'none.yaml', realFarmText('Nobody')));
  expect([none.code, none.stderr]).toEqual([1, expect.stringContaining('No alarms are known') as unknown]);
}, 160_000);
