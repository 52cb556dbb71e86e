import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { deskBoard, onPty, type PtyBoard } from './pty-board.ts';
import { type Ended, linesOf, ownFolder, realFarmText, startedWith, STATE, written } from './rillkeeper.ts';

const FILE = written(ownFolder(), 'real.yaml', realFarmText('Probed'));
const PROBE = 2;
const WATER = 1;
/** Of the module in the farm file, µS/cm. */
const FULL_SCALE = 5000;
const countsOf = (microsiemensPerCm: number): number => (1024 * microsiemensPerCm) / FULL_SCALE;

const desk = deskBoard();
let board: PtyBoard;
beforeAll(async () => {
  // 10 k against a 10 k thermistor: half of the scale is 25 °C, where a bottle reads what it says.
  desk.analog.set(WATER, 512);
  board = await onPty(desk.peer);
});
afterAll(async () => {
  await board.unplug();
});

interface Kept {
  readonly cellFactor: number;
  readonly points: readonly unknown[];
  readonly earlier: readonly unknown[];
}
const kept = (): Kept =>
  JSON.parse(readFileSync(join(STATE, 'probed', 'probe-calibration.json'), 'utf8')) as Kept;

/** Dips the probe where it is asked to, pressing Enter for each. */
const calibrate = async (dips: readonly (readonly [standard: number, counts: number])[]): Promise<Ended> => {
  const standards = dips.flatMap(([standard]) => ['--standard', String(standard)]);
  const running = startedWith('pipe', 'probe', 'calibrate', FILE, '--board', board.path, ...standards);
  for (const [standard, counts] of dips) {
    await running.talked(`${standard} µS/cm: rinse the probe`);
    desk.analog.set(PROBE, counts);
    running.child.stdin?.write('\n');
  }
  return running.ended;
};

describe('probe calibrate, guided over a serial line', () => {
  it('takes a cell whose constant is 1.1 times nominal by one standard of 1413 µS/cm', async () => {
    const { code, stdout } = await calibrate([[1413, countsOf(1413 / 1.1)]]);
    expect(code).toBe(0);
    expect(stdout).toMatch(
      /^Accepted: cell factor 1\.10\d, zero 0 µS\/cm; the first of this probe\. 0 earlier kept\./,
    );
    // A count of 1024 is 0.35 % of this signal.
    expect(Math.abs(kept().cellFactor / 1.1 - 1)).toBeLessThan(0.004);
  });

  it('refuses a dry probe, says what to do, and keeps the old one to the letter', async () => {
    const before = kept();
    const { code, stderr } = await calibrate([[1413, 0]]);
    expect(code).toBe(4);
    expect(stderr).toMatch(/The probe reads nothing in the 1413 µS\/cm standard\. Dip both tips fully/);
    expect(stderr).toMatch(/The old calibration is kept\./);
    expect(kept()).toEqual(before);
  });

  it('takes two standards, tells the drift, and keeps the one before as history', async () => {
    const { code, stdout } = await calibrate([
      [500, countsOf(500)],
      [2764, countsOf(2764)],
    ]);
    expect(code).toBe(0);
    expect(stdout).toMatch(/the old one read 1\d\.\d % high\. 1 earlier kept\./);
    expect(kept()).toMatchObject({ points: [{}, {}], earlier: [{ points: [{}] }] });
  });

  it('refuses 1.413, which is a standard told in mS/cm, before anything is dipped', async () => {
    const running = startedWith(
      'pipe',
      'probe',
      'calibrate',
      FILE,
      '--board',
      board.path,
      '--standard',
      '1.413',
    );
    const { code, stderr } = await running.ended;
    expect([code, stderr]).toEqual([2, expect.stringContaining('Did you mean 1413?')]);
    expect(stderr).toContain('allowed is 50 to 200000 µS/cm');
  });

  it('ended before its dips were made changes nothing', async () => {
    const before = kept();
    const running = startedWith(
      'pipe',
      'probe',
      'calibrate',
      FILE,
      '--board',
      board.path,
      '--standard',
      '1413',
    );
    await running.talked('1413 µS/cm: rinse the probe');
    running.child.stdin?.end();
    const { code, stderr } = await running.ended;
    expect([code, linesOf(stderr).at(-1)]).toEqual([
      1,
      'Ended before all dips were made; the old calibration is kept.',
    ]);
    expect(kept()).toEqual(before);
  });
});
