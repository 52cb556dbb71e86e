import { chmodSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { saidBriefly } from '../../../firmware-host/brief-program.ts';

afterEach(() => {
  vi.unstubAllEnvs();
});

const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-brief-'));
let count = 0;
const program = (...lines: readonly string[]): string => {
  const file = join(folder, `program-${(count += 1)}`);
  writeFileSync(file, ['#!/bin/sh', ...lines, ''].join('\n'));
  chmodSync(file, 0o755);
  return file;
};
const timed = async (path: string): Promise<{ readonly said: string | null; readonly millis: number }> => {
  const since = performance.now();
  const said = await saidBriefly(path, ['one', 'two'], 300);
  return { said, millis: performance.now() - since };
};

describe('a program that is asked in passing', () => {
  it('is heard, with the words that it was given', async () => {
    expect(await saidBriefly(program('echo "$2 $1"'), ['one', 'two'], 5000)).toBe('two one\n');
  });

  it.each([
    ['that fails', program('echo yes', 'exit 1')],
    ['that is not there', join(folder, 'nowhere')],
    ['whose name no system takes', 'a\0b'],
  ])('%s has said nothing', async (_, path) => {
    expect(await saidBriefly(path, [], 5000)).toBeNull();
  });

  it('that cannot be begun, as an environment of 200 kB lets none begin, has said nothing', async () => {
    vi.stubEnv('RILLKEEPER_LARGE', 'x'.repeat(200_000));
    expect(await saidBriefly(program('echo yes'), [], 5000)).toBeNull();
  });

  it.each([
    ['that hangs', ['exec sleep 8']],
    ['that heeds no SIGTERM', ["trap '' TERM", 'i=0', 'while [ $i -lt 8 ]; do sleep 1; i=$((i+1)); done']],
    ['whose child holds its line open', ['sleep 8 &', 'exec sleep 8']],
  ])('%s is waited for as long as was asked, and no longer; it does not live on', async (_, lines) => {
    const number = join(folder, `number-${(count += 1)}`);
    const { said, millis } = await timed(program(`echo $$ > ${number}`, ...lines));
    expect(said).toBeNull();
    expect(millis).toBeGreaterThan(290);
    expect(millis).toBeLessThan(2000);
    const lives = (): boolean => {
      try {
        return process.kill(Number(readFileSync(number, 'utf8')), 0);
      } catch {
        return false;
      }
    };
    await expect.poll(lives, { timeout: 2000 }).toBe(false);
  });

  it('that has hung is begun again, once it has ended', async () => {
    const mark = join(folder, 'hung');
    const hangsOnce = program(`if [ -e ${mark} ]; then echo well; else touch ${mark}; exec sleep 8; fi`);
    expect((await timed(hangsOnce)).said).toBeNull();
    expect(await saidBriefly(hangsOnce, [], 5000)).toBe('well\n');
  });
});
