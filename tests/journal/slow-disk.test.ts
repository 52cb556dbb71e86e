import { setTimeout as pause } from 'node:timers/promises';
import { resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { createRecorder, type ClosableDisk } from '../../firmware-host/storage/journal/recorder.ts';
import { openJournal } from '../../firmware-host/storage/journal/journal.ts';
import type { Batch } from '../../src/journal/disk.ts';
import type { Entry } from '../../src/journal/entry.ts';
import { monotonicMillis, wallMillis, type Now } from '../../src/time/instant.ts';
import { bookFolderOf, entriesIn, removeBookFolders } from '../support/journal-book.ts';

afterAll(removeBookFolders);

const now = (): Now => ({ monotonic: monotonicMillis(performance.now()), wall: wallMillis(Date.now()) });
const sip = (reason: string): Entry => ({ kind: 'sip', reason, at: now().monotonic, wall: now().wall });

/** I8 of the fault catalogue: the journal may not delay a pump command by more than this. */
const DELAY_MILLIS_MAX = 250;

describe('the host does not wait for the disk', () => {
  it('that takes 5 s for each write: 700 calls in 7 s take less than 250 ms each, and all arrive', async () => {
    const batches: Batch[] = [];
    const disk: ClosableDisk = {
      write: async (batch) => {
        await pause(5000);
        batches.push(batch);
        return { kind: 'durable' };
      },
      reopen: () => Promise.resolve({ kind: 'refused', why: 'not in this test' }),
      close: () => Promise.resolve(),
      end: () => undefined,
    };
    const { client, opened } = createRecorder(disk, now);
    opened({ kind: 'open', lastSeq: 0, setAside: null });
    let longest = 0;
    for (let call = 0; call < 700; call += 1) {
      const entries = Array.from({ length: 5 }, () => sip('x'));
      const begun = performance.now();
      client.append(entries);
      client.keep('{}');
      longest = Math.max(longest, performance.now() - begun);
      await pause(10);
    }
    expect(client.health()).toMatchObject({ kind: 'behind' });
    expect(longest).toBeLessThan(DELAY_MILLIS_MAX);
    process.stderr.write(`longest append before a disk of 5 s a write: ${longest.toFixed(2)} ms\n`);
    for (let waited = 0; client.durable() < 3500 && waited < 400; waited += 1) await pause(100);
    expect(batches.flatMap(({ entries }) => entries)).toHaveLength(3500);
    await client.close();
  });

  it('in its thread: of 1000 calls of append the longest stays under 250 ms, and close writes all of them', async () => {
    const folder = bookFolderOf('thread');
    const { client } = await openJournal(folder, { now, thread: resolve('dist/journal.mjs') });
    const spans: number[] = [];
    for (let call = 0; call < 1000; call += 1) {
      const begun = performance.now();
      client.append([sip(String(call))]);
      spans.push(performance.now() - begun);
      await pause(1);
    }
    await client.close();
    expect(entriesIn(folder).map(({ json }) => json)).toEqual(
      Array.from({ length: 1000 }, (_, call) => JSON.stringify({ reason: String(call) })),
    );
    spans.sort((a, b) => a - b);
    expect(spans.at(-1)).toBeLessThan(DELAY_MILLIS_MAX);
    process.stderr.write(
      `append in its thread: median ${(spans[500] ?? 0).toFixed(3)} ms, 99 % ${(spans[990] ?? 0).toFixed(3)} ms, longest ${(spans.at(-1) ?? 0).toFixed(2)} ms\n`,
    );
  });

  it('ends within 4 s though the disk never answers', async () => {
    const disk: ClosableDisk = {
      write: () => new Promise(() => undefined),
      reopen: () => new Promise(() => undefined),
      close: () => Promise.resolve(),
      end: () => undefined,
    };
    const { client, opened } = createRecorder(disk, now);
    opened({ kind: 'open', lastSeq: 0, setAside: null });
    client.append([sip('x')]);
    const begun = performance.now();
    await client.close();
    expect(performance.now() - begun).toBeLessThan(4000);
  });
});
