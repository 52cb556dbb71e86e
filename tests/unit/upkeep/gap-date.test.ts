import Sqlite from 'better-sqlite3';
import { afterAll, describe, expect, it } from 'vitest';
import type { ClockSource } from '../../../firmware-host/start/clock-source.ts';
import { bookPath } from '../../../firmware-host/storage/journal/book-path.ts';
import { bookFolderOf, removeBookFolders } from '../../support/journal-book.ts';
import { utc } from '../../support/moments.ts';
import { clockFrom, cutHost, UP, upkeepOf, type CutHost } from './made-upkeep.ts';

afterAll(removeBookFolders);

const CUT = utc('2026-07-14T13:59Z');
/** From the last time on the disk, however long the machine had no power. */
const BACK = utc('2026-07-14T14:00Z');

/** The kinds of entry that this host dated, and those that it did not; cut, and begun again. */
const datedBy = async (
  source: ClockSource,
  cut: Omit<CutHost, 'folder' | 'wall'> | null,
): Promise<Readonly<Record<string, 'dated' | 'undated'>>> => {
  const folder = bookFolderOf('gap-date');
  if (cut !== null) await cutHost({ ...cut, folder, wall: CUT });
  const now = clockFrom(BACK);
  const upkeep = await upkeepOf({ folder, now, source });
  await upkeep.ended(upkeep.begun(now(), UP), now());
  const db = new Sqlite(bookPath(folder), { readonly: true });
  const rows = db
    .prepare<[], { kind: string; wall: number | null }>(`SELECT kind, wall FROM entries WHERE kind <> 'sip'`)
    .all();
  db.close();
  return Object.fromEntries(rows.map(({ kind, wall }) => [kind, wall === null ? 'undated' : 'dated']));
};
const allOf = (as: 'dated' | 'undated'): object => ({ 'gap-recorded': as, settings: as, stopped: as });

describe('the gap in the book that a host finds', () => {
  it('has no date, as no entry after it, where the machine was started anew and nothing is known to have set its clock', async () => {
    expect(await datedBy('unknown', { machine: 'was started anew' })).toEqual(allOf('undated'));
  });

  it('has one where the network has set it', async () => {
    expect(await datedBy('network', { machine: 'was started anew' })).toEqual(allOf('dated'));
  });

  it('has one where the machine went on, and its clock was believed before', async () => {
    expect(await datedBy('unknown', { machine: 'goes on' })).toEqual(allOf('dated'));
  });

  it('has one there with the word that the book was damaged, and was set aside', async () => {
    expect(await datedBy('unknown', { machine: 'goes on', book: 'damaged' })).toEqual({
      'damaged-file-set-aside': 'dated',
      ...allOf('dated'),
    });
  });

  it('has none where it was in doubt before', async () => {
    expect(await datedBy('unknown', { machine: 'goes on', clock: 'in doubt' })).toEqual(allOf('undated'));
  });
});

it('the book of a first start has no gap, and its entries have a date', async () => {
  expect(await datedBy('unknown', null)).toEqual({ settings: 'dated', stopped: 'dated' });
});
