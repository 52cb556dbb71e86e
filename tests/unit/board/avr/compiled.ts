import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const HERE = import.meta.dirname;
const FLASH_BYTES = 32_768;

/** Compiles a program that lies beside this file, to the whole flash of the chip. */
export const compiled = (source: string, ...flags: readonly string[]): Uint8Array => {
  const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-avr-'));
  try {
    const [elf, bin] = [join(folder, 'a.elf'), join(folder, 'a.bin')];
    const target = ['-mmcu=atmega328p', '-DF_CPU=16000000UL', '-Os', '-Wall', '-Werror'];
    execFileSync('avr-gcc', [...target, ...flags, join(HERE, source), '-o', elf]);
    execFileSync('avr-objcopy', ['-O', 'binary', elf, bin]);
    const flash = new Uint8Array(FLASH_BYTES).fill(0xff);
    flash.set(readFileSync(bin));
    return flash;
  } finally {
    rmSync(folder, { recursive: true });
  }
};
