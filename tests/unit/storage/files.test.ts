import { mkdtempSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readWhole, writeWhole } from '../../../firmware-host/storage/atomic-file.ts';
import {
  calibrationFile,
  readCalibration,
  writeCalibration,
} from '../../../firmware-host/storage/calibration-file.ts';
import { claimed } from '../../../firmware-host/storage/one-host.ts';
import { demoFolder, slug, stateFolder } from '../../../firmware-host/storage/state-folder.ts';
import { createStatusKeeper, readStatus } from '../../../firmware-host/storage/status-file.ts';
import type { ProbeCalibration } from '../../../src/sense/probe.ts';
import { wallMillis } from '../../../src/time/instant.ts';
import { QUIET_STATUS } from '../../support/quiet-status.ts';

const folder = (): string => mkdtempSync(join(tmpdir(), 'rillkeeper-storage-'));

const FIT = {
  cellFactor: 1.1,
  zeroMicrosiemensPerCm: 0,
  at: wallMillis(1_800_000_000_000),
  points: [{ standardMicrosiemensPerCmAt25: 1413, counts: 263, celsius: 25 }],
  module: { fullScaleMicrosiemensPerCm: 5000 },
} as const;
const CALIBRATION: ProbeCalibration = { ...FIT, earlier: [{ ...FIT, cellFactor: 1 }] };

describe('a file that is written whole', () => {
  it('holds the new text, in a folder that was not there, and leaves nothing beside it', async () => {
    const path = join(folder(), 'deep', 'file.json');
    await writeWhole(path, 'old');
    await writeWhole(path, 'new');
    expect(await readWhole(path)).toBe('new');
    expect(readdirSync(join(path, '..'))).toEqual(['file.json']);
  });

  it('is null where there is none, and fails where a folder stands in its place, with nothing left behind', async () => {
    const own = folder();
    expect(await readWhole(join(own, 'none'))).toBeNull();
    await writeWhole(join(own, 'taken', 'inside'), 'x');
    await expect(writeWhole(join(own, 'taken'), 'text')).rejects.toThrow();
    expect(readdirSync(own)).toEqual(['taken']);
  });
});

describe('the calibration file', () => {
  it('comes back as it was written, with its history', async () => {
    const own = folder();
    expect(await readCalibration(own)).toEqual({ kind: 'none' });
    await writeCalibration(own, CALIBRATION);
    expect(await readCalibration(own)).toEqual({ kind: 'found', calibration: CALIBRATION });
  });

  it.each([
    ['half written', '{"cellFactor": 1.1, "zero'],
    ['empty', ''],
    ['a cell factor of 5, which no cell has', JSON.stringify({ ...CALIBRATION, cellFactor: 5 })],
    ['of something else', '{"kind": "other"}'],
  ])('%s is not believed, and says why', async (_, text) => {
    const own = folder();
    writeFileSync(calibrationFile(own), text);
    const read = await readCalibration(own);
    expect(read.kind).toBe('unreadable');
    expect(read.kind === 'unreadable' && read.why.length > 0).toBe(true);
  });
});

describe('the status file', () => {
  it('that is no status is told as unreadable, and one that is not there as none', async () => {
    const own = folder();
    expect(await readStatus(own)).toEqual({ kind: 'none' });
    writeFileSync(join(own, 'status.json'), '{"farm": 3}');
    expect((await readStatus(own)).kind).toBe('unreadable');
  });

  it('is written when its sentence or an alarm is another, else every 10 s: 14 times in 2 min with 2 changes', async () => {
    const own = folder();
    let second = 0;
    const keeper = createStatusKeeper(
      own,
      () => undefined,
      () => second * 1000,
    );
    const written: number[] = [];
    let seen: string | null = null;
    for (; second < 120; second += 1) {
      keeper.keep(() => ({
        ...QUIET_STATUS,
        writtenAt: new Date(second * 1000).toISOString(),
        says: second < 25 ? 'Wet.' : 'NO WATER for less than a minute.',
        alarms:
          second < 47
            ? []
            : [{ kind: 'missed-flood', priority: 'high', state: 'unacknowledged', text: 'No water.' }],
      }));
      await keeper.settled();
      const text = await readWhole(join(own, 'status.json'));
      if (text !== seen) written.push(second);
      seen = text;
    }
    expect(written).toEqual([0, 10, 20, 25, 35, 45, 47, 57, 67, 77, 87, 97, 107, 117]);
    expect(await readStatus(own)).toMatchObject({ kind: 'found', status: { benches: [], readings: [] } });
  });

  it('on a disk that takes nothing is told once, and never throws', async () => {
    const own = folder();
    writeFileSync(join(own, 'file'), '');
    const told: string[] = [];
    const keeper = createStatusKeeper(join(own, 'file'), (why) => told.push(why));
    keeper.keep(() => QUIET_STATUS);
    await keeper.settled();
    expect(told).toHaveLength(1);
  });
});

describe('the state folder', () => {
  it('is named for the farm, in small letters, where the environment says', () => {
    expect(stateFolder('Quinta da Ribeira nº 2', { RILLKEEPER_STATE: '/s' })).toBe(
      '/s/quinta-da-ribeira-no-2',
    );
    expect(stateFolder('../..', { XDG_STATE_HOME: '/x' })).toMatch(/^\/x\/rillkeeper\/farm-[0-9a-f]{8}$/);
    expect(demoFolder('Hill', { RILLKEEPER_STATE: '/s' })).toBe('/s/hill-demo');
  });

  it.each([
    ['São João', 'sa-o-joa-o'],
    ['Børge & Weiß, 3. Æcker', 'b-rge-wei-3-cker'],
    ['Farm', 'farm'],
    ['Kahuʻāina', 'kahu-a-ina'],
  ])('of %s, in Latin letters alone, bears no digits of a hash', (name, folderName) => {
    expect(stateFolder(name, { RILLKEEPER_STATE: '/s' })).toBe(`/s/${folderName}`);
  });

  it('is one for each of 7 names in other scripts, and the same however the letters were typed', () => {
    const names = ['農場', '温室', 'Ферма', 'Теплица', 'مزرعة ٢', 'مزرعة ٣', 'Hof 温室'];
    const folders = names.map((name) => stateFolder(name, { RILLKEEPER_STATE: '/s' }));
    expect(new Set(folders).size).toBe(7);
    for (const path of folders) expect(path).toMatch(/^\/s\/(farm|2|3|hof)-[0-9a-f]{8}$/);
    expect(slug('Й'.normalize('NFD'))).toBe(slug('Й'.normalize('NFC')));
  });

  it('is claimed by one process once: a second claim is refused, and told whose it is', async () => {
    const own = folder();
    expect([await claimed(own), await claimed(own), await claimed(folder())]).toEqual([
      { kind: 'claimed' },
      { kind: 'taken', pid: process.pid },
      { kind: 'claimed' },
    ]);
  });
});
