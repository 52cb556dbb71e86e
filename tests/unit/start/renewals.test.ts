import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readRenewals, wasRenewed, writeRenewal } from '../../../firmware-host/start/renewals.ts';
import { countCleanStop, countStart, startNow, type Start } from '../../../firmware-host/start/starts.ts';
import { wallMillis } from '../../../src/time/instant.ts';
import { minute, utc } from '../../support/moments.ts';

const NOON = utc('2026-07-14T11:00Z');
const folder = (): string => mkdtempSync(join(tmpdir(), 'rillkeeper-renewals-'));
const notAFolder = (): string => {
  const file = join(folder(), 'file');
  writeFileSync(file, '');
  return file;
};
const at = (minutes: number): Start =>
  startNow('a', { monotonic: minute(minutes), wall: wallMillis(NOON + minutes * 60_000) });

describe('a host that ended itself to be started anew', () => {
  it('is known to the next one for as many hours as it asks about, also over starts and clean stops', async () => {
    const own = [folder()];
    expect(await readRenewals(own)).toEqual([]);
    expect(await writeRenewal(own, at(0))).toBeNull();
    await countCleanStop(own);
    await countStart(own, at(1));
    const renewals = await readRenewals(own);
    expect(wasRenewed(1, renewals, at(59))).toBe(true);
    expect(wasRenewed(1, renewals, at(60))).toBe(false);
    expect(wasRenewed(20, renewals, at(60))).toBe(true);
  });

  it('is kept in the second folder where the first takes nothing, and says why where none does', async () => {
    const second = folder();
    expect(await writeRenewal([notAFolder(), second], at(0))).toBeNull();
    expect(await readRenewals([notAFolder(), second])).toHaveLength(1);
    expect(await writeRenewal([notAFolder()], at(0))).toMatch(/ENOTDIR|EEXIST/);
  });

  it('is as none where its file cannot be understood', async () => {
    const own = folder();
    for (const text of ['', '{', '{"renewed":{"boot":1}}']) {
      writeFileSync(join(own, 'renewed.json'), text);
      expect(await readRenewals([own])).toEqual([]);
    }
  });
});
