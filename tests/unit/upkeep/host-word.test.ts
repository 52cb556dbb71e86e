import { existsSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import {
  hostWordFile,
  hostWordWatch,
  sayToHost,
  type HostWord,
} from '../../../firmware-host/upkeep/host-word.ts';

const NOW = 1_784_030_400_000;
const folderOf = (): string => mkdtempSync(join(tmpdir(), 'rillkeeper-word-'));

/** What the watch has heard after a look, and whether the word is gone. */
const lookedIn = async (folder: string): Promise<readonly [string | null, boolean]> => {
  const watch = hostWordWatch(folder, () => NOW);
  watch.look('clock');
  await sleep(50);
  const who = watch.said()?.who ?? null;
  expect(watch.said()).toBeNull();
  return [who, !existsSync(hostWordFile(folder))];
};

describe('a word at the host about its clock', () => {
  it('is heard once, with who said it, and is gone', async () => {
    const folder = folderOf();
    await sayToHost(folder, { kind: 'clock-right', who: 'rui at the host', atMillis: NOW - 2000 });
    expect(await lookedIn(folder)).toEqual(['rui at the host', true]);
    expect(await lookedIn(folder)).toEqual([null, true]);
  });

  it.each([
    ['61 s old', NOW - 61_000],
    ['of a clock that was set back since', NOW + 3_600_000],
  ])('%s says nothing, and is gone', async (_, atMillis) => {
    const folder = folderOf();
    await sayToHost(folder, { kind: 'clock-right', who: 'rui at the host', atMillis });
    expect(await lookedIn(folder)).toEqual([null, true]);
  });

  it.each(['', '{}', '{"who":"","atMillis":1}', 'yes'])('that is none, as %j, says nothing', async (text) => {
    const folder = folderOf();
    writeFileSync(hostWordFile(folder), text);
    expect(await lookedIn(folder)).toEqual([null, true]);
  });
});

describe('a word at the host', () => {
  const heardBy = async (folder: string): Promise<unknown> => {
    const watch = hostWordWatch(folder, () => NOW);
    watch.look('nothing');
    await sleep(50);
    return watch.said();
  };

  it('about a clock that nobody doubts stays, for whoever said it to see that no host took it', async () => {
    const folder = folderOf();
    await sayToHost(folder, { kind: 'clock-right', who: 'rui at the host', atMillis: NOW });
    expect(await heardBy(folder)).toBeNull();
    expect(existsSync(hostWordFile(folder))).toBe(true);
  });

  it('that acknowledges is heard with the alarms that were shown', async () => {
    const folder = folderOf();
    const word: HostWord = {
      kind: 'acknowledge',
      alarms: ['missed-flood'],
      who: 'rui at the host',
      atMillis: NOW,
    };
    await sayToHost(folder, word);
    expect(await heardBy(folder)).toEqual(word);
    expect(existsSync(hostWordFile(folder))).toBe(false);
  });
});
