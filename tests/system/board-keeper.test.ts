import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { readTable, tableBytes } from '../../src/plan/keeper-table.ts';
import { HEARTBEAT, PUMP } from '../unit/devices/keeper/keeper-stub.ts';
import { realFarm } from './keeper-farms.ts';
import { onPty, type PtyBoard } from './pty-board.ts';
import { keeperOnPty, type PtyKeeper } from './pty-keeper.ts';
import { linesOf, RIBEIRA, rillkeeper, startedWith, STATE, type Ended } from './rillkeeper.ts';

const FARM = realFarm('Kept');
const OLD_TABLE = [
  ...tableBytes({
    parts: [{ fromMinute: 0, restSeconds: 9000, coolRestSeconds: 9000, floodSeconds: 600 }],
    longestRestSeconds: 12_000,
    returnLagSeconds: 480,
  }),
];

let board: PtyKeeper;
let silent: PtyBoard;
beforeAll(async () => {
  [board, silent] = await Promise.all([keeperOnPty({ setup: FARM.setup() }), onPty(null)]);
});
afterAll(async () => {
  await Promise.all([board.unplug(), silent.unplug()]);
});
beforeEach(() => {
  Object.assign(board.stub.state, {
    setup: FARM.setup(),
    table: [...OLD_TABLE],
    puts: 'kept',
    notSetUp: false,
    deaf: [],
    major: 1,
  });
  board.stub.heard.splice(0);
});

const on = (command: string, ...options: readonly string[]): Promise<Ended> =>
  rillkeeper('board', command, FARM.file, '--board', board.path, ...options);
const keptTable = (): ReturnType<typeof readTable> => readTable(Uint8Array.from(board.stub.state.table));
/** No command of these ever asks for the pump. */
const asksPump = (): boolean => board.stub.heard.some(({ type }) => type === PUMP);

describe('board table', () => {
  it('shows plan and board side by side, says that they differ, and ends with 1', async () => {
    const { code, stdout } = await on('table');
    expect(code).toBe(1);
    expect(stdout).toContain('The board has another table than the plan of');
    expect(stdout).toMatch(/from 08:00 {2}plan {3}rest .* flood 20 min/);
    expect(stdout).toMatch(/board {2}rest 150 min, flood 10 min/);
    expect(board.stub.state.table).toEqual(OLD_TABLE);
  });

  it('--write puts it, reads it back, and leaves the pump with the keeper', async () => {
    const { code, stdout } = await on('table', '--write');
    expect([code, stdout.includes('Written and read back.')]).toEqual([0, true]);
    expect(keptTable().kind).toBe('table');
    expect(board.stub.state.table).not.toEqual(OLD_TABLE);
    expect([board.stub.state.owner, asksPump()]).toEqual(['keeper', false]);
    const again = await on('table', '--write', '--json');
    expect(again.code).toBe(0);
    expect(JSON.parse(again.stdout)).toMatchObject({ same: true, written: false, slot: 0, seq: 7 });
  });

  it.each(['bad-value', 'not-stored'] as const)(
    'that the board answers with %s is told, and ends with 1',
    async (puts) => {
      board.stub.state.puts = puts;
      const { code, stderr } = await on('table', '--write');
      expect(code).toBe(1);
      expect(stderr).toContain('The board keeps table number 7, in slot 0, and not the new one');
      expect(board.stub.state.owner).toBe('keeper');
    },
  );

  it('does not write to a board that was flashed for another relay', async () => {
    board.stub.state.setup = FARM.setup().with(2, 9);
    const { code, stderr } = await on('table', '--write');
    expect(code).toBe(4);
    expect(stderr).toContain('on pin 9; by the farm file it is on pin 7');
    expect(board.stub.state.table).toEqual(OLD_TABLE);
  });

  it('where nobody answers for 8 s ends with 69, and says that stock firmware has no keeper', async () => {
    const { code, stderr } = await rillkeeper('board', 'table', FARM.file, '--board', silent.path);
    expect(code).toBe(69);
    expect(stderr).toContain('the board does not answer');
    expect(stderr).toContain('A board with stock firmware has no keeper');
  });

  it('tells of a board whose table this program cannot read', async () => {
    board.stub.state.table = OLD_TABLE.with(0, 2);
    const { code, stdout } = await on('table');
    expect(code).toBe(1);
    expect(stdout).toContain("cannot read the board's table: schema 2");
  });
});

describe('board adopt', () => {
  it('puts the table, says that the calibration stays and is to be checked, and what to see at the pump', async () => {
    mkdirSync(join(STATE, 'kept'), { recursive: true });
    const calibration = {
      cellFactor: 1.02,
      zeroMicrosiemensPerCm: 0,
      at: 1_780_000_000_000,
      points: [{ standardMicrosiemensPerCmAt25: 1413, counts: 280, celsius: 25 }],
      module: { fullScaleMicrosiemensPerCm: 5000 },
      earlier: [],
    };
    writeFileSync(join(STATE, 'kept', 'probe-calibration.json'), JSON.stringify(calibration));
    const { code, stdout } = await on('adopt');
    const text = stdout.replaceAll(/\s+/g, ' ');
    expect(code).toBe(0);
    expect(text).toContain('The table of today was put and read back');
    expect(text).toContain('stays in force. It was made with the other board');
    expect(text).toContain('probe calibrate');
    expect(text).toContain('floods once by itself');
    expect(board.stub.state.table).not.toEqual(OLD_TABLE);
    expect([board.stub.state.owner, asksPump()]).toEqual(['keeper', false]);
  });

  it('names the line of the farm file that wants another board', async () => {
    const named = realFarm('Named', (text) => text.replace(/^board:\n/m, 'board:\n  identity: 7523ABC\n'));
    const { code, stdout } = await rillkeeper('board', 'adopt', named.file, '--board', board.path, '--json');
    expect(code).toBe(0);
    const { identity } = JSON.parse(stdout) as {
      readonly identity: { readonly verdict: string; readonly says: string };
    };
    expect(identity.verdict).toBe('change-file');
    expect(identity.says).toMatch(/^Line \d+ of .* wants "7523ABC".*write identity: RillkeeperBoard there/);
  });

  it('of a board that is not set up, or set up for another farm, ends with 4 and says to flash it', async () => {
    board.stub.state.notSetUp = true;
    const blank = await on('adopt');
    board.stub.state.notSetUp = false;
    board.stub.state.setup = FARM.setup().with(1, 0);
    const other = await on('adopt');
    expect([blank.code, other.code]).toEqual([4, 4]);
    expect(blank.stderr).toContain('is not set up. Flash it first');
    expect(other.stderr).toContain('Flash it: rillkeeper board flash');
    expect(board.stub.state.table).toEqual(OLD_TABLE);
  });
});

describe('board test', () => {
  const answers = async (buzzer: string, ...options: readonly string[]): Promise<Ended> => {
    const running = startedWith(
      'pipe',
      ...['board', 'test', FARM.file, '--board', board.path, '--for', '1s', ...options],
    );
    const says = async (asked: string, line: string): Promise<void> => {
      await Promise.race([running.talked(asked), running.ended]);
      running.child.stdin?.write(`${line}\n`);
    };
    await says('Press Enter to begin', '');
    await says('turn on the buzzer', '');
    await says('Did it sound?', buzzer);
    await says('turn on the lamp', '');
    await says('Was it lit?', 'y');
    return running.ended;
  };

  it('sounds and lights for two seconds, sees the keeper take over, asks for no pump, and ends with 0', async () => {
    const { code, stdout } = await answers('y');
    expect(code).toBe(0);
    const text = stdout.replaceAll(/\s+/g, ' ');
    expect(text).toContain('well The buzzer works.');
    expect(text).toContain('well The lamp works.');
    expect(text).toMatch(/The keeper took the pump after (?:9|10|11) s of silence/);
    expect(text).toContain('well The board was flashed for this farm file as it stands.');
    expect(text).toContain('WARNING Brown-out reset at 2.7 V');
    expect(text).toContain('Nothing failed.');
    // Signals of a heartbeat: 1 buzzer, 2 lamp.
    const signals = board.stub.heard.flatMap(({ type, body }) => (type === HEARTBEAT ? [body.at(-1)] : []));
    expect(signals).toEqual([1, 0, 2, 0, 0]);
    expect([asksPump(), board.stub.state.owner]).toEqual([false, 'keeper']);
  });

  it('--json with a buzzer that was not heard and another setup says failed, and ends with 1', async () => {
    board.stub.state.setup = FARM.setup('off').with(6, 60);
    const { code, stdout } = await answers('n', '--json');
    expect(code).toBe(1);
    const { ok, findings } = JSON.parse(stdout) as {
      readonly ok: boolean;
      readonly findings: readonly { readonly name: string; readonly verdict: string }[];
    };
    const verdict = (wanted: string): string | undefined =>
      findings.find(({ name }) => name === wanted)?.verdict;
    expect(ok).toBe(false);
    expect([verdict('buzzer'), verdict('lamp'), verdict('setup'), verdict('watchdog')]).toEqual([
      'failed',
      'well',
      'failed',
      'warning',
    ]);
  });

  it('without Enter tries nothing and ends with 1', async () => {
    const { code, stderr } = await on('test');
    expect([code, linesOf(stderr).at(-1)]).toEqual([1, 'Ended before it began; nothing was tried.']);
    expect(board.stub.heard.some(({ type }) => type === HEARTBEAT)).toBe(false);
  });

  it('of a board that is not set up says to flash it, and ends with 4', async () => {
    board.stub.state.notSetUp = true;
    const { code, stderr } = await on('test');
    expect([code, stderr]).toEqual([4, expect.stringContaining('is not set up')]);
  });
});

describe.each(['table', 'test', 'adopt'])('board %s that cannot be', (command) => {
  it('of an invented farm ends with 4, with auto for a port with 2', async () => {
    const [invented, auto] = await Promise.all([
      rillkeeper('board', command, RIBEIRA, '--board', board.path),
      rillkeeper('board', command, FARM.file, '--board', 'auto'),
    ]);
    expect([invented.code, auto.code]).toEqual([4, 2]);
  });

  it('where no port is ends with 69', async () => {
    const missing = `${board.path}-not`;
    const { code, stderr } = await rillkeeper('board', command, FARM.file, '--board', missing);
    expect([code, stderr]).toEqual([69, expect.stringContaining('there is no such port')]);
  });

  it('of a board that speaks another major protocol ends with 69 and says to flash it', async () => {
    board.stub.state.major = 2;
    const { code, stderr } = await on(command);
    expect([code, stderr]).toEqual([69, expect.stringContaining('speaks keeper protocol 2, this program 1')]);
  });
});
