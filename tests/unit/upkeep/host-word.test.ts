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
  type HostWordWatch,
} from '../../../firmware-host/upkeep/host-word.ts';

const NOW = 1_784_030_400_000;
const folderOf = (): string => mkdtempSync(join(tmpdir(), 'rillkeeper-word-'));

/** A watch that has looked once at a word that it is to take. */
const looked = async (folder: string, doubts: 'clock' | 'nothing'): Promise<HostWordWatch> => {
  const watch = hostWordWatch(folder, () => NOW);
  watch.look(doubts);
  await expect.poll(() => existsSync(hostWordFile(folder)), { timeout: 5000 }).toBe(false);
  // What was read is handed on after the file has gone.
  await sleep(50);
  return watch;
};

/** What the watch has heard after a look, and whether the word is gone. */
const lookedIn = async (folder: string): Promise<readonly [string | null, boolean]> => {
  const watch = await looked(folder, 'clock');
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
  it('about a clock that nobody doubts stays, for whoever said it to see that no host took it', async () => {
    const folder = folderOf();
    await sayToHost(folder, { kind: 'clock-right', who: 'rui at the host', atMillis: NOW });
    const watch = hostWordWatch(folder, () => NOW);
    watch.look('nothing');
    await sleep(500);
    expect(watch.said()).toBeNull();
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
    expect((await looked(folder, 'nothing')).said()).toEqual(word);
    expect(existsSync(hostWordFile(folder))).toBe(false);
  });
});
