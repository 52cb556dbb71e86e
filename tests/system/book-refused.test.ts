import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { openJournal } from '../../firmware-host/storage/journal/journal.ts';
import { bookPath } from '../../firmware-host/storage/journal/book-path.ts';
import { stateFolder } from '../../firmware-host/storage/state-folder.ts';
import { monotonicMillis, wallMillis } from '../../src/time/instant.ts';
import { deskBoard, onPty } from './pty-board.ts';
import { ownFolder, realFarmText, rillkeeper, startedLong, STATE, written } from './rillkeeper.ts';

vi.setConfig({ testTimeout: 110_000 });

const ALARM_AT = wallMillis(Date.UTC(2026, 6, 14, 12));
const farm = written(ownFolder(), 'damp.yaml', realFarmText('Damp'));
const path = bookPath(stateFolder('Damp', { RILLKEEPER_STATE: STATE }));
let whole: Buffer;

beforeAll(async () => {
  const at = { at: monotonicMillis(0), wall: ALARM_AT };
  const { client } = await openJournal(stateFolder('Damp', { RILLKEEPER_STATE: STATE }), {
    now: () => ({ monotonic: at.at, wall: at.wall }),
  });
  client.append([
    { kind: 'started', farm: 'Damp', ...at },
    { kind: 'alarm-raised', alarm: 'tank-low', priority: 'high', text: 'Tank low.', ...at },
  ]);
  await client.close();
  whole = readFileSync(path);
});

/** The pages that hold the rows, overwritten; the first one, which says what the file is, stays. */
const withSpoiltPages = (): Buffer => {
  const spoilt = Buffer.from(whole);
  spoilt.fill(0xff, spoilt.readUInt16BE(16));
  return spoilt;
};

describe('book on a damaged book', () => {
  it.each([[[]], [['--json']], [['--csv', '--out', join(ownFolder(), 'out.csv')]]])(
    'with %j is refused with 4, says that it is damaged, and leaves no half file',
    async (options) => {
      writeFileSync(path, withSpoiltPages());
      const { code, stdout, stderr } = await rillkeeper('book', farm, ...options);
      writeFileSync(path, whole);
      expect(code).toBe(4);
      // With --json a refusal stands there as data, and no entry before it.
      if (options.includes('--json')) expect(JSON.parse(stdout)).toMatchObject({ ok: false });
      else expect(stdout).toBe('');
      expect(stderr).toContain('The book cannot be read: database disk image is malformed (SQLITE_CORRUPT');
      expect(stderr).not.toContain('defect');
      expect(options.some((option) => existsSync(option))).toBe(false);
    },
  );

  it('with one row that is no JSON any more is refused with 4', async () => {
    const db = new Sqlite(path);
    db.prepare(`UPDATE entries SET json = '{"alarm":' WHERE kind = 'alarm-raised'`).run();
    db.close();
    const { code, stderr } = await rillkeeper('book', farm);
    writeFileSync(path, whole);
    expect(code).toBe(4);
    expect(stderr).toContain('It is damaged; nothing was changed in it');
  });
});

describe('book --kind', () => {
  it.each(['alarm', 'verdikt'])(
    '%s, which is no kind, is refused with 2 and all kinds listed',
    async (kind) => {
      const { code, stderr } = await rillkeeper('book', farm, '--kind', kind);
      expect(code).toBe(2);
      expect(stderr.replace(/\s+/g, ' ')).toContain(
        `found "${kind}"; allowed are started, stopped, settings,`,
      );
      expect(stderr.replace(/\s+/g, ' ')).toContain('alarm-raised, alarm-returned');
    },
  );

  it('alarm-raised tells the alarm', async () => {
    const { code, stdout } = await rillkeeper('book', farm, '--kind', 'alarm-raised');
    expect({ code, stdout }).toEqual({ code: 0, stdout: '2026-07-14 13:00  ALARM (high) Tank low.\n' });
  });
});

describe('a farm file that is broken while its host runs on', () => {
  it('keeps neither status nor book nor backup from telling of it, each with a word on the file', async () => {
    const board = await onPty(deskBoard().peer);
    const folder = ownFolder();
    const text = realFarmText('Marsh');
    const file = written(folder, 'farm.yaml', text);
    const running = startedLong('run', file, '--board', board.path);
    await running.said('the board answers');
    writeFileSync(file, text.replace('watts: 250', 'watts: many'));
    const to = join(folder, 'marsh.backup');
    const found = [
      await rillkeeper('status', file),
      await rillkeeper('book', file),
      await rillkeeper('book', file, '--backup', to),
    ];
    running.child.kill('SIGTERM');
    await running.ended;
    await board.unplug();
    for (const { stderr } of found) {
      expect(stderr).toContain('found "many"');
      expect(stderr.replace(/\s+/g, ' ')).toContain('THE FARM FILE IS NOT USED. The last good one is taken');
    }
    const [status, book, backup] = found;
    expect(status?.stdout).toMatch(/^Marsh\n/);
    expect(status?.code).not.toBe(4);
    expect(book?.stdout).toContain('Marsh: running');
    expect([book?.code, backup?.code]).toEqual([0, 0]);
    const restored = join(folder, 'restored.yaml');
    const again = await rillkeeper('restore', to, '--to', restored, '--replace');
    expect(again.code).toBe(0);
    expect(readFileSync(restored, 'utf8')).toBe(text);
  });

  it('is refused with 4 where no host ran by an earlier one', async () => {
    const file = written(ownFolder(), 'farm.yaml', realFarmText('Moor').replace('watts: 250', 'watts: many'));
    const { code, stderr } = await rillkeeper('status', file);
    expect(code).toBe(4);
    expect(stderr).toContain('There is no earlier good farm file');
  });
});
