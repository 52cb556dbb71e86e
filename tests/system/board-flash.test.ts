import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { crc16 } from '../../firmware-host/devices/keeper/crc.ts';
import { parseIntelHex } from '../../firmware-host/firmware-image/intel-hex.ts';
import { readSetup } from '../../src/farm/keeper-setup.ts';
import { keeperTableOfYear, tableBytes } from '../../src/plan/keeper-table.ts';
import { fakeAvrdude, pathOf, type FakeAvrdude } from './fake-avrdude.ts';
import { realFarm } from './keeper-farms.ts';
import { keeperOnPty, type PtyKeeper } from './pty-keeper.ts';
import {
  ownFolder,
  realFarmText,
  RIBEIRA,
  rillkeeper,
  startedWith,
  STATE,
  type Ended,
  written,
} from './rillkeeper.ts';

const FARM = realFarm('Flashed');
let board: PtyKeeper;
let avrdude: FakeAvrdude;

beforeAll(async () => {
  board = await keeperOnPty({ setup: FARM.setup() });
});
afterAll(async () => {
  await board.unplug();
});
beforeEach(() => {
  board.stub.state.setup = FARM.setup();
  avrdude = fakeAvrdude();
  pathOf(avrdude.folder);
});

const flash = (...options: readonly string[]): readonly string[] => [
  'board',
  'flash',
  FARM.file,
  '--board',
  board.path,
  ...options,
];
/** Presses Enter where it is asked for. */
const flashed = async (...options: readonly string[]): Promise<Ended> => {
  const running = startedWith('pipe', ...flash(...options));
  await Promise.race([running.talked('Press Enter'), running.ended]);
  running.child.stdin?.end('\n');
  return running.ended;
};

describe('board flash', () => {
  it('asks the bootloader, writes, and puts the table of today into the board that then answers', async () => {
    board.stub.state.table = [
      ...tableBytes({
        parts: [{ fromMinute: 0, restSeconds: 20_000, coolRestSeconds: 20_000, floodSeconds: 60 }],
        longestRestSeconds: 21_000,
        returnLagSeconds: 480,
      }),
    ];
    const { code, stdout, stderr } = await flashed('--bootloader', 'new');
    expect([code, stderr.includes('Writing | ##')]).toEqual([0, true]);
    expect(stdout.replaceAll('\n', ' ')).toContain('Flashed for Flashed: the board answers with this setup');
    const reaching = ['-p', 'atmega328p', '-c', 'arduino', '-P', board.path, '-b', '115200', '-D'];
    const file = join(STATE, 'flashed', 'board-image.hex');
    expect(avrdude.runs()).toEqual([
      [...reaching, '-v'],
      [...reaching, '-U', `flash:w:${file}:i`],
    ]);
    // The table of the farm that the board served before does not stay in force.
    expect(board.stub.state.table[1]).toBeGreaterThan(1);
    expect(board.stub.state.owner).toBe('keeper');
  });

  it('the image holds program, setup and the table of the year, each with a checksum that is right', async () => {
    await flashed('--bootloader', 'new');
    const image = avrdude.image();
    const word = (at: number): number => image[at]! | (image[at + 1]! << 8);
    const plain = parseIntelHex(readFileSync('firmware-host/board-sketch/board.hex', 'utf8'));
    expect(Buffer.compare(image.subarray(0, 0x6f00), plain.subarray(0, 0x6f00))).toBe(0);
    expect(word(0x6f02)).toBe(crc16(image.subarray(0, word(0x6f00))));
    expect(word(0x6f92)).toBe(crc16(image.subarray(0x6f04, 0x6f92)));
    expect([...image.subarray(0x6f04, 0x6f4c)]).toEqual(FARM.setup('on'));
    const plan = keeperTableOfYear(FARM.farm);
    const table = plan.kind === 'table' ? tableBytes(plan.table) : new Uint8Array();
    expect([...image.subarray(0x6f4c, 0x6f4c + table.length)]).toEqual([...table]);
    expect(image.subarray(0x6f94).every((byte) => byte === 0xff)).toBe(true);
  });

  it('for an old bootloader writes a setup without the watchdog at 57600 baud, and says what is lost', async () => {
    avrdude.says('1.16');
    board.stub.state.setup = FARM.setup('off');
    const { code, stderr } = await flashed('--bootloader', 'old');
    expect(code).toBe(0);
    expect(stderr).toContain('WITHOUT its watchdog');
    expect(stderr.replaceAll(/\s+/g, ' ')).toContain('one that rests may rest for ever');
    expect(readSetup(avrdude.image().slice(0x6f04, 0x6f4c))?.watchdog).toBe('off');
    expect(avrdude.runs().map((run) => run[7])).toEqual(['57600', '57600']);
  });

  it('writes nothing when a new bootloader was said and the board tells that it has the old one', async () => {
    avrdude.says('1.16');
    const { code, stderr } = await flashed('--bootloader', 'new');
    expect(code).toBe(4);
    expect(stderr).toContain('version 1.16, an old one; nothing was written. Add --bootloader old');
    expect(avrdude.runs()).toHaveLength(1);
  });

  it('asks which bootloader it is where the port does not tell, with exit 2 and avrdude never run', async () => {
    const { code, stderr } = await rillkeeper(...flash());
    expect(code).toBe(2);
    expect(stderr).toContain('Which bootloader does this board have, old or new?');
    expect(avrdude.runs()).toEqual([]);
  });

  it('without Enter writes nothing and ends with 1', async () => {
    const running = startedWith('pipe', ...flash('--bootloader', 'new'));
    await running.talked('Press Enter');
    running.child.stdin?.end();
    const { code, stderr } = await running.ended;
    expect([code, stderr.includes("Pull the pump's plug")]).toEqual([1, true]);
    expect(stderr).toContain('nothing was written to the board');
    expect(avrdude.runs()).toEqual([]);
  });

  it('--write-only-file writes the same image, shows the command, and neither asks nor touches a board', async () => {
    const out = join(ownFolder(), 'out.hex');
    const { code, stdout, stderr } = await rillkeeper(
      ...flash('--bootloader', 'new', '--write-only-file', out),
    );
    expect(code).toBe(0);
    expect(stderr).toContain(
      `  avrdude -p atmega328p -c arduino -P ${board.path} -b 115200 -D -U flash:w:${out}:i`,
    );
    expect(stderr.replaceAll(/\s+/g, ' ')).toContain(
      'keeps its old table; after the flashing: rillkeeper board table',
    );
    expect(stdout.replaceAll('\n', ' ')).toContain('no board was touched');
    expect(avrdude.runs()).toEqual([]);
    expect([...parseIntelHex(readFileSync(out, 'utf8')).subarray(0x6f04, 0x6f4c)]).toEqual(FARM.setup());
    const again = await rillkeeper(...flash('--bootloader', 'old', '--write-only-file', out));
    expect([again.code, again.stderr]).toEqual([2, expect.stringContaining('is there already')]);
  });

  it('--json tells port, bootloader, watchdog, command and program as data', async () => {
    const out = join(ownFolder(), 'out.hex');
    const { stdout } = await rillkeeper(...flash('--bootloader', 'old', '--write-only-file', out, '--json'));
    const { command, program, ...rest } = JSON.parse(stdout) as Record<string, unknown> & {
      readonly command: readonly string[];
      readonly program: { readonly bytes: number };
    };
    expect(rest).toMatchObject({
      ok: true,
      flashed: false,
      farm: 'Flashed',
      bootloader: 'old',
      watchdog: 'off',
    });
    expect([command[0], command.at(-1)]).toEqual(['avrdude', `flash:w:${out}:i`]);
    expect(program.bytes).toBeGreaterThan(1000);
  });

  it('refuses a board that then answers with another setup', async () => {
    board.stub.state.setup = FARM.setup().with(4, 9);
    const { code, stderr } = await flashed('--bootloader', 'new');
    expect([code, stderr.includes('answers with another setup than the one written')]).toEqual([1, true]);
  });
});

describe('board flash that cannot be', () => {
  const pinless = (): string =>
    written(ownFolder(), 'no-pins.yaml', realFarmText('Pinless').replace(/^board:\n(?: {2}.*\n)+/m, ''));
  const rows: readonly (readonly [what: string, file: () => string, words: string])[] = [
    ['an invented farm', () => RIBEIRA, 'this farm is invented'],
    ['a farm without a board section', pinless, 'has no "board:" section'],
    ['a file that is not there', () => join(ownFolder(), 'none.yaml'), 'none.yaml'],
  ];
  it.each(rows)('for %s ends with 4, and avrdude never runs', async (_, file, words) => {
    const { code, stderr } = await rillkeeper(
      ...['board', 'flash', file(), '--board', board.path, '--bootloader', 'new'],
    );
    expect([code, stderr]).toEqual([4, expect.stringContaining(words)]);
    expect(avrdude.runs()).toEqual([]);
  });

  it('without avrdude says how to get it, and ends with 69', async () => {
    pathOf(ownFolder());
    const { code, stderr } = await flashed('--bootloader', 'new');
    expect([code, stderr]).toEqual([69, expect.stringContaining('sudo apt install avrdude')]);
  });

  it('when avrdude fails ends with 69, with its words and what to do', async () => {
    avrdude.failsWith('avrdude: stk500_getsync() attempt 10 of 10: not in sync: resp=0x00\n');
    const { code, stderr } = await flashed('--bootloader', 'new');
    expect(code).toBe(69);
    expect(stderr).toContain('  avrdude: stk500_getsync() attempt 10 of 10: not in sync');
    expect(stderr.replaceAll('\n', ' ')).toContain('It may be the other kind: --bootloader old');
  });

  it('of a port that is not there ends with 69: avrdude ran and nobody answers', async () => {
    const running = startedWith(
      'pipe',
      ...['board', 'flash', FARM.file, '--board', `${board.path}-not`, '--bootloader', 'new'],
    );
    await running.talked('Press Enter');
    running.child.stdin?.end('\n');
    const { code, stderr } = await running.ended;
    expect([code, stderr]).toEqual([69, expect.stringContaining('there is no such port')]);
  });

  it('with auto for a port, or a third kind of bootloader, ends with 2', async () => {
    const [auto, third] = await Promise.all([
      rillkeeper('board', 'flash', FARM.file, '--board', 'auto'),
      rillkeeper(...flash('--bootloader', 'usb')),
    ]);
    expect([auto.code, third.code]).toEqual([2, 2]);
    expect(auto.stderr).toContain('name the port of the very board');
  });
});
