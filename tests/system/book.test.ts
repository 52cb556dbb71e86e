import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { beforeAll, describe, expect, it } from 'vitest';
import { openJournal, type OpenedJournal } from '../../firmware-host/storage/journal/journal.ts';
import { bookPath } from '../../firmware-host/storage/journal/book-path.ts';
import { claimed } from '../../firmware-host/storage/one-host.ts';
import { calibrationFile } from '../../firmware-host/storage/calibration-file.ts';
import type { Entry } from '../../src/journal/entry.ts';
import { monotonicMillis, wallMillis } from '../../src/time/instant.ts';
import { linesOf, ownFolder, rillkeeper, RIBEIRA, STATE } from './rillkeeper.ts';

const BEGUN = Date.UTC(2026, 6, 14, 6);
const hour = (hours: number): { at: Entry['at']; wall: Entry['wall'] } => ({
  at: monotonicMillis(hours * 3_600_000),
  wall: wallMillis(BEGUN + hours * 3_600_000),
});
const AWKWARD = 'says "now", and\nthen, waits';
const entries: readonly Entry[] = [
  { kind: 'started', farm: 'Ribeira', ...hour(0) },
  { kind: 'order', order: 'hold', who: 'Ana', says: AWKWARD, ...hour(1) },
  {
    kind: 'verdict',
    flood: 1,
    part: 'day',
    verdict: { kind: 'confirmed', says: 'water came back' },
    ...hour(2),
  },
  { kind: 'pump-asked', pump: 'on', longestSeconds: 1500, ...hour(29.5) },
  { kind: 'verdict', flood: 2, part: 'day', verdict: { kind: 'withheld', says: 'held by Ana' }, ...hour(30) },
  { kind: 'reading', channel: 'air', quality: 'good', value: 21.5, unit: '°C', ...hour(30) },
];
const CALIBRATION = '{"invented":"by this test"}\n';
const folderName = (): string => readdirSync(STATE)[0] ?? '';

/** A host that runs, as far as its book is concerned, while these tests read it. */
let running: OpenedJournal;
let folder: string;

beforeAll(async () => {
  // The name of the folder is that of the farm: asked of the program, which says where it looked.
  const { stderr, code } = await rillkeeper('book', RIBEIRA);
  expect(code).toBe(1);
  folder = /nothing in (\S+)\./.exec(stderr)?.[1] ?? '';
  expect(folder.startsWith(STATE)).toBe(true);
  mkdirSync(folder, { recursive: true });
  writeFileSync(calibrationFile(folder), CALIBRATION);
  running = await openJournal(folder, { now: () => ({ monotonic: hour(30).at, wall: hour(30).wall }) });
  running.client.append(entries);
  running.client.keep('{"a":1}');
  await new Promise((go) => setTimeout(go, 500));
  expect(running.client.durable()).toBe(5);
});

describe('book', () => {
  it('tells the last day of the book as a table, while the host runs', async () => {
    const { code, stdout } = await rillkeeper('book', RIBEIRA);
    expect(code).toBe(0);
    expect(linesOf(stdout)).toEqual(['2026-07-15 13:00  flood 2 withheld: held by Ana']);
  });

  it('tells what was asked for by time and kind', async () => {
    const { stdout } = await rillkeeper(
      'book',
      RIBEIRA,
      '--from',
      '2026-07-14',
      '--to',
      '2026-07-14T09:30',
      '--kind',
      'verdict',
      '--json',
    );
    expect(linesOf(stdout).map((line) => JSON.parse(line) as object)).toMatchObject([
      { number: 3, kind: 'verdict', flood: 1, wall: '2026-07-14T08:00:00.000Z' },
    ]);
  });

  it('tells what the pump was asked to whoever asks for it, and says so where nothing else happened', async () => {
    const asked = await rillkeeper('book', RIBEIRA, '--kind', 'pump-asked');
    expect(linesOf(asked.stdout)).toEqual(['2026-07-15 12:30  the pump is asked on, for 1500 s at most']);
    expect(asked.stderr).toBe('');
    const between = ['--from', '2026-07-15T12:00', '--to', '2026-07-15T12:45'];
    const unasked = await rillkeeper('book', RIBEIRA, ...between);
    expect(unasked.stdout).toBe('');
    expect(unasked.stderr).toContain('Nothing that is told without --kind stands in the book for that time.');
  });

  it('writes CSV by RFC 4180 that csv-parse reads back, quotes, commas, line breaks and all', async () => {
    const out = join(ownFolder(), 'book.csv');
    const { code } = await rillkeeper('book', RIBEIRA, '--from', '2026-07-14', '--csv', '--out', out);
    expect(code).toBe(0);
    const text = readFileSync(out, 'utf8');
    expect(text.split('\r\n')).toHaveLength(7);
    const rows = parse<Record<string, string>>(text, { columns: true, record_delimiter: '\r\n' });
    expect(rows.map(({ number, kind }) => [number, kind])).toEqual([
      ['1', 'started'],
      ['2', 'order'],
      ['3', 'verdict'],
      ['4', 'pump-asked'],
      ['5', 'verdict'],
    ]);
    expect(rows[1]).toMatchObject({ words: `Ana: ${AWKWARD}`, time: '2026-07-14T07:00:00.000Z' });
    const again = await rillkeeper('book', RIBEIRA, '--csv', '--out', out);
    expect(again.code).toBe(2);
    expect(readFileSync(out, 'utf8')).toBe(text);
  });

  it.each([
    [['--from', 'yesterday'], 'found "yesterday"'],
    [['--kind', 'A B'], 'found "A B"'],
    [['--csv', '--json'], 'Either'],
  ])('refuses %j and ends with 2', async (options, says) => {
    const { code, stderr } = await rillkeeper('book', RIBEIRA, ...options);
    expect(code).toBe(2);
    expect(stderr).toContain(says);
  });
});

describe('backup and restore', () => {
  const backup = (): string => join(STATE, '..', `${folderName()}-${process.pid}.backup`);
  const restored = join(ownFolder(), 'farm.yaml');

  it('makes one file while the host runs, refuses to come back over it, and comes back whole when it is ended', async () => {
    const made = await rillkeeper('book', RIBEIRA, '--backup', backup());
    expect(made.code).toBe(0);
    expect(existsSync(`${backup()}-wal`)).toBe(false);
    expect((await rillkeeper('book', RIBEIRA, '--backup', backup())).code).toBe(2);

    // The claim of a host that runs, held by this process until it ends, is for another name: see the last test.
    running.client.append([{ kind: 'stopped', ...hour(31) }]);
    await running.client.close();
    const refused = await rillkeeper('restore', backup(), '--to', restored);
    expect(refused.code).toBe(2);
    expect(refused.stderr).toContain('--replace');
    expect(existsSync(restored)).toBe(false);

    const done = await rillkeeper('restore', backup(), '--to', restored, '--replace');
    expect(done.code).toBe(0);
    expect(readFileSync(restored, 'utf8')).toBe(readFileSync(RIBEIRA, 'utf8'));
    expect(readFileSync(calibrationFile(folder), 'utf8')).toBe(CALIBRATION);
    const { stdout } = await rillkeeper('book', RIBEIRA, '--from', '2026-07-14', '--json');
    expect(linesOf(stdout)).toHaveLength(5);
    // What was there before is there still: with the sixth entry, which the backup had not.
    const before = readdirSync(STATE).filter((name) => name.includes('.before-'));
    expect(before).toHaveLength(1);
    expect(existsSync(bookPath(join(STATE, before[0] ?? '')))).toBe(true);
  });

  it('refuses a backup with one bit flipped in any of 3 places, or cut in half, and changes nothing', async () => {
    const whole = readFileSync(backup());
    const now = (): string =>
      createHash('sha256')
        .update(readFileSync(bookPath(folder)))
        .digest('hex');
    const before = now();
    for (const share of [0.02, 0.3, 0.98]) {
      const spoilt = Buffer.from(whole);
      // From there on the first byte that holds something.
      const at = spoilt.findIndex((byte, place) => place >= share * spoilt.length && byte !== 0);
      spoilt[at] = (spoilt[at] ?? 0) ^ 0x10;
      const file = join(ownFolder(), 'spoilt.backup');
      writeFileSync(file, spoilt);
      const { code, stderr } = await rillkeeper('restore', file, '--to', restored, '--replace');
      expect({ share, code }).toEqual({ share, code: 4 });
      expect(stderr).toMatch(/nothing was changed|Nothing was changed/);
    }
    writeFileSync(join(STATE, '..', 'cut.backup'), whole.subarray(0, whole.length / 2));
    expect(
      (await rillkeeper('restore', join(STATE, '..', 'cut.backup'), '--to', restored, '--replace')).code,
    ).toBe(4);
    expect(now()).toBe(before);
  });

  it('refuses with 3 while a host runs, and changes nothing', async () => {
    expect((await claimed(folder)).kind).toBe('claimed');
    const { code, stderr } = await rillkeeper('restore', backup(), '--to', restored, '--replace');
    expect(code).toBe(3);
    expect(stderr).toContain('nothing was changed');
  });
});
