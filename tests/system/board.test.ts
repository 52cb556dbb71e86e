import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { deskBoard, onPty, type PtyBoard } from './pty-board.ts';
import { farmTextWith, linesOf, ownFolder, rillkeeper, written } from './rillkeeper.ts';

/** The example with the key taken out that says that nothing in it is real. */
const REAL = written(ownFolder(), 'real.yaml', farmTextWith('invented:\n  today: 2026-07-14', '#').text);

const desk = deskBoard();
let board: PtyBoard;
let silent: PtyBoard;

beforeAll(async () => {
  [board, silent] = await Promise.all([onPty(desk.peer), onPty(null)]);
});
afterAll(async () => {
  await Promise.all([board.unplug(), silent.unplug()]);
});

describe('board list', () => {
  it('--json is a list, whatever ports this machine has', async () => {
    const { code, stdout } = await rillkeeper('board', 'list', '--json');
    expect(code).toBe(0);
    expect(Array.isArray(JSON.parse(stdout))).toBe(true);
  });
});

describe('board info', () => {
  it('tells firmware, protocol and pins of the board that answers, with the standing warning', async () => {
    const { code, stdout } = await rillkeeper('board', 'info', board.path);
    expect(code).toBe(0);
    expect(stdout).toContain(`${board.path}: DeskFirmata.ino 2.5, Firmata 2.8`);
    expect(stdout).toContain('analog pins    A0, A1, A2, A3, A4, A5');
    expect(stdout.replaceAll('\n', ' ')).toContain('nobody keeps the plants');
  });

  it('drives no pin', () => {
    // Stock firmware itself puts its digital pins low when it starts.
    for (let pin = 2; pin <= 12; pin += 1) expect(desk.history(pin).includes(1)).toBe(false);
  });

  it('ends with 69 for a port that is not there, and for one where nothing speaks Firmata', async () => {
    const [missing, mute] = await Promise.all([
      rillkeeper('board', 'info', `${board.path}-not`),
      rillkeeper('board', 'info', silent.path),
    ]);
    expect([missing.code, mute.code]).toEqual([69, 69]);
    expect(missing.stderr).toMatch(/there is no such port/);
    expect(mute.stderr).toMatch(/nothing there speaks Firmata/);
  });
});

describe('board watch', () => {
  it('--json gives one object a second with every reading, and drives nothing', async () => {
    desk.analog.set(0, 512);
    const { code, stdout } = await rillkeeper(
      'board',
      'watch',
      REAL,
      '--board',
      board.path,
      '--for',
      '0.08min',
      '--json',
    );
    expect(code).toBe(0);
    const last = JSON.parse(linesOf(stdout).at(-1)!) as {
      readonly readings: readonly {
        readonly name: string;
        readonly quality: string;
        readonly value: string;
      }[];
    };
    // 10 k against a 10 k thermistor: half of the scale is 25 °C by the definition of R25.
    expect(last.readings.find(({ name }) => name === 'air')).toMatchObject({
      quality: 'good',
      value: '25.0 °C',
    });
    expect(desk.history(7).includes(1)).toBe(false);
  });
});

describe('run on a real board', () => {
  it('is refused for an invented farm, for want of a board section, and without a board named', async () => {
    const noPins = written(
      ownFolder(),
      'no-pins.yaml',
      farmTextWith('invented:\n  today: 2026-07-14', '#').text.replace(/^board:\n(?: {2}.*\n)+/m, ''),
    );
    const [invented, unwired, unnamed] = await Promise.all([
      rillkeeper('run', 'docs/examples/ribeira.yaml', '--board', board.path),
      rillkeeper('run', noPins, '--board', board.path),
      rillkeeper('run', REAL),
    ]);
    expect([invented.code, unwired.code, unnamed.code]).toEqual([4, 4, 2]);
    expect(invented.stderr).toMatch(/this farm is invented/);
    expect(unwired.stderr).toMatch(/has no "board:" section/);
    expect(unnamed.stderr).toMatch(/which board\? Allowed: --board demo/);
  });

  it.each(['--speed 60', '--from 05:00', '--seed 3', '--fault pump-dead@13:00', '--hot-day'])(
    'refuses %s, which only a simulated shed can do',
    async (option) => {
      const { code, stderr } = await rillkeeper('run', REAL, '--board', board.path, ...option.split(' '));
      expect(code).toBe(2);
      expect(stderr).toMatch(/only a simulated shed can do that/);
    },
  );
});
