import { expect, it, onTestFinished } from 'vitest';
import { deskBoard, onPty } from './pty-board.ts';
import { linesOf, ownFolder, realFarmText, rillkeeper, startedLong, written } from './rillkeeper.ts';

const SECONDS = 1000;

it('shelve puts off what is not about water, for half of the time left at most, and tells it again at 0; of water nothing', async () => {
  // Nothing is at its pins: the float says that the tank is low, and the benches begin on the dry side.
  const board = await onPty(deskBoard().peer);
  const file = written(ownFolder(), 'farm.yaml', realFarmText('Later'));
  onTestFinished(() => board.unplug());
  const started = () => startedLong('run', file, '--board', board.path);
  // Two starts that nobody ended, and the third is in safe mode.
  for (let start = 1; start <= 2; start += 1) {
    const killed = started();
    await killed.said('the board answers');
    killed.child.kill('SIGKILL');
    await killed.ended;
  }
  const running = started();
  await running.talked('SAFE MODE');
  const status = async (): Promise<string> => (await rillkeeper('status', file)).stdout;
  const shelve = async (...args: readonly string[]): Promise<readonly [number | null, string]> => {
    const { code, stdout, stderr } = await rillkeeper('shelve', file, ...args);
    return [code, `${stdout}${stderr}`.replaceAll(/\s+/g, ' ')];
  };
  await expect
    .poll(status, { timeout: 60 * SECONDS })
    .toMatch(/The tank[^]*The host runs|The host runs[^]*The tank/);

  const [code, list] = await shelve();
  expect(code).toBe(0);
  expect(list).toMatch(/tank-low: about water, cannot be put off\. The tank/);
  expect(list).toMatch(/safe-mode: The host runs with as little as it can/);

  expect(await shelve('tank-low')).toEqual([2, expect.stringContaining('the crop hangs on it') as unknown]);
  expect(await shelve('line-bad')).toEqual([
    2,
    expect.stringContaining('No alarm "line-bad" stands; allowed is safe-mode.') as unknown,
  ]);
  for (const minutes of ['481', '-1', 'long', ''])
    expect(await shelve('safe-mode', '--minutes', minutes)).toEqual([
      2,
      expect.stringContaining('allowed is a number from 0 to 480') as unknown,
    ]);

  expect(await shelve('safe-mode', '--minutes', '0')).toEqual([
    0,
    expect.stringMatching(/^Not put off: The host/) as unknown,
  ]);

  const { timeLeft } = JSON.parse((await rillkeeper('status', file, '--json')).stdout) as {
    readonly timeLeft: { readonly minutes: number };
  };
  const granted = Math.min(480, timeLeft.minutes / 2);
  const [done, said] = await shelve('safe-mode', '--minutes', '480');
  expect(done).toBe(0);
  expect(said).toMatch(/^Put off for [^:]+: The host/);
  expect(said.includes('half of the time left without the pump')).toBe(granted < 479);
  expect(await status()).toMatch(/ALARM \(\w+, put off\) The host/);
  expect((await shelve())[1]).toContain('safe-mode: put off.');
  expect(await shelve('safe-mode', '--minutes', '0')).toEqual([
    0,
    expect.stringMatching(/^Told again: The host/) as unknown,
  ]);
  expect(await status()).toMatch(/ALARM \(\w+, nobody has answered\) The host/);

  running.child.kill('SIGTERM');
  expect((await running.ended).code).toBe(0);
  const entries = linesOf((await rillkeeper('book', file, '--json')).stdout)
    .map((line) => JSON.parse(line) as { kind: string; alarm?: string; who?: string; minutes?: number })
    .filter(({ kind }) => kind.includes('shelve'));
  const who = expect.stringMatching(/ at the host$/) as unknown;
  expect(entries).toMatchObject([
    { kind: 'alarm-shelved', alarm: 'safe-mode', who },
    { kind: 'alarm-unshelved', alarm: 'safe-mode' },
  ]);
  expect(Math.abs((entries[0]?.minutes ?? 0) - granted)).toBeLessThan(2);
  expect(await shelve('safe-mode')).toEqual([
    1,
    expect.stringContaining('Nothing is put off: no host of Later runs') as unknown,
  ]);
}, 160_000);
