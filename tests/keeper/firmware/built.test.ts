import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { programLength } from '../../../firmware-host/firmware-image/flash-image.ts';
import { program } from '../image.ts';

const SKETCH = 'firmware-host/board-sketch';
/** What the build allows itself; ATmega328P data sheet, "AVR Memories": 32 768 bytes of flash, 2048 of SRAM. */
const FLASH_MOST = 13_312;
const RAM_MOST = 1024;

const committed = (file: string): string => readFileSync(join(SKETCH, file), 'utf8');
/** `flash    14642 of 15360` */
const told = (sizes: string, name: string): { readonly bytes: number; readonly most: number } => {
  const found = new RegExp(`^${name} +(\\d+) of (\\d+)$`, 'm').exec(sizes);
  return { bytes: Number(found?.[1]), most: Number(found?.[2]) };
};

describe('the firmware, built anew from its sources', () => {
  const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-built-'));
  // Without a compiler this fails, with the packages to install in its words.
  beforeAll(() => {
    execFileSync('bash', [join(SKETCH, 'build.sh'), folder], { stdio: ['ignore', 'ignore', 'pipe'] });
  });
  afterAll(() => {
    rmSync(folder, { recursive: true });
  });

  it.each(['board.hex', 'board.size.txt'])('is byte for byte the committed %s', (file) => {
    expect(readFileSync(join(folder, file), 'utf8')).toBe(committed(file));
  });
  it('leaves nothing else behind', () => {
    expect(readdirSync(folder).sort()).toEqual(['board.hex', 'board.size.txt']);
  });
  it('takes at most 13 312 of the 32 768 bytes of flash, and as many as it says', () => {
    const flash = told(committed('board.size.txt'), 'flash');
    expect(flash.most).toBe(FLASH_MOST);
    expect(flash.bytes).toBeLessThanOrEqual(FLASH_MOST);
    expect(programLength(program())).toBe(flash.bytes);
  });
  it('takes at most 1024 of the 2048 bytes of RAM before any stack', () => {
    const ram = told(committed('board.size.txt'), 'RAM');
    expect(ram.most).toBe(RAM_MOST);
    expect(ram.bytes).toBeLessThanOrEqual(RAM_MOST);
  });
  it('names the three Debian packages where there is no compiler, and writes nothing', () => {
    const empty = mkdtempSync(join(tmpdir(), 'rillkeeper-built-'));
    const script = 'PATH=/nowhere; . "$0" "$1"';
    const built = spawnSync('bash', ['-c', script, join(SKETCH, 'build.sh'), empty], { encoding: 'utf8' });
    const left = readdirSync(empty);
    rmSync(empty, { recursive: true });
    expect(built.status).toBe(1);
    expect(built.stderr).toMatch(/gcc-avr.*avr-libc.*binutils-avr/);
    expect(left).toEqual([]);
  });
});
