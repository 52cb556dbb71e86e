import { existsSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { clockWordFile, clockWordWatch, sayClockRight } from '../../../firmware-host/upkeep/clock-word.ts';

const NOW = 1_784_030_400_000;
const folderOf = (): string => mkdtempSync(join(tmpdir(), 'rillkeeper-word-'));

/** What the watch has heard after a look, and whether the word is gone. */
const lookedIn = async (folder: string): Promise<readonly [string | null, boolean]> => {
  const watch = clockWordWatch(folder, () => NOW);
  watch.look();
  await sleep(50);
  const who = watch.said()?.who ?? null;
  expect(watch.said()).toBeNull();
  return [who, !existsSync(clockWordFile(folder))];
};

describe('a word at the host about its clock', () => {
  it('is heard once, with who said it, and is gone', async () => {
    const folder = folderOf();
    await sayClockRight(folder, { who: 'rui at the host', atMillis: NOW - 2000 });
    expect(await lookedIn(folder)).toEqual(['rui at the host', true]);
    expect(await lookedIn(folder)).toEqual([null, true]);
  });

  it.each([
    ['61 s old', NOW - 61_000],
    ['of a clock that was set back since', NOW + 3_600_000],
  ])('%s says nothing, and is gone', async (_, atMillis) => {
    const folder = folderOf();
    await sayClockRight(folder, { who: 'rui at the host', atMillis });
    expect(await lookedIn(folder)).toEqual([null, true]);
  });

  it.each(['', '{}', '{"who":"","atMillis":1}', 'yes'])('that is none, as %j, says nothing', async (text) => {
    const folder = folderOf();
    writeFileSync(clockWordFile(folder), text);
    expect(await lookedIn(folder)).toEqual([null, true]);
  });
});
