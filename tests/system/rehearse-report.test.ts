import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ownFolder, RIBEIRA, rillkeeper, written } from './rillkeeper.ts';

const folder = ownFolder();

describe('rehearse --report', () => {
  it.each([
    ['page.txt', 'does not end in .html'],
    ['none/page.html', 'has no folder to stand in'],
  ])('refuses %s before anything is rehearsed: it %s', async (name, why) => {
    const file = join(folder, name);
    const { code, stdout, stderr, seconds } = await rillkeeper(
      'rehearse',
      RIBEIRA,
      '--draws',
      '1000',
      '--report',
      file,
    );
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toContain(why);
    expect(existsSync(file)).toBe(false);
    expect(seconds).toBeLessThan(10);
  });

  it('leaves a page of somebody else as it was, and says so as data too', async () => {
    const file = written(folder, 'own.html', '<!doctype html>my page');
    const { code, stdout } = await rillkeeper(
      'rehearse',
      RIBEIRA,
      '--draws',
      '0',
      '--json',
      '--report',
      file,
    );
    expect(code).toBe(2);
    expect(JSON.parse(stdout)).toMatchObject({
      ok: false,
      says: expect.stringContaining('so it stays') as string,
    });
    expect(readFileSync(file, 'utf8')).toBe('<!doctype html>my page');
  });

  it('gives the same page for the same seed, and prints the same as without it', async () => {
    const file = join(folder, 'page.html');
    const args = ['rehearse', RIBEIRA, '--draws', '1'];
    const first = await rillkeeper(...args, '--report', file);
    const page = readFileSync(file, 'utf8');
    const second = await rillkeeper(...args, '--report', file);
    expect(readFileSync(file, 'utf8')).toBe(page);
    expect(second.stdout).toBe(first.stdout);
    expect((await rillkeeper(...args)).stdout).toBe(first.stdout);
  });
});
