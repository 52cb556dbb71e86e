import type { Batch, Disk, Reopened, Wrote, Written } from '../../src/journal/disk.ts';
import {
  isEmpty,
  openQueue,
  turn,
  wakeAt,
  type QueueEffect,
  type QueueInput,
} from '../../src/journal/queue.ts';
import type { Queue, Waiting } from '../../src/journal/queue-state.ts';
import { rankOf } from '../../src/journal/rank.ts';
import { monotonicMillis, wallMillis, type Now } from '../../src/time/instant.ts';

/** What befalls one write: it may be lost or have arrived when it fails. */
export type Mishap = 'none' | 'full' | 'fails-before' | 'fails-behind';

/** A disk in memory. `mishap` is asked at each write with its number, from 1. */
export class VirtualDisk implements Disk {
  readonly entries: { readonly seq: number; readonly written: Written }[] = [];
  readonly readings: Written[] = [];
  keptState: string | null = null;
  writes = 0;
  opens = 0;
  isOpen = true;
  readonly mishap: (write: number, batch: Batch) => Mishap;
  readonly refuses: (open: number) => boolean;

  constructor(
    mishap: (write: number, batch: Batch) => Mishap = () => 'none',
    refuses: (open: number) => boolean = () => false,
  ) {
    this.mishap = mishap;
    this.refuses = refuses;
  }

  writeNow(batch: Batch): Wrote {
    if (!this.isOpen) throw new Error('written to a handle that has failed');
    this.writes += 1;
    const mishap = this.mishap(this.writes, batch);
    if (mishap === 'full') return { kind: 'full', why: 'the disk is full' };
    if (mishap !== 'fails-before') {
      batch.entries.forEach((written, place) => this.entries.push({ seq: batch.firstSeq + place, written }));
      this.readings.push(...batch.readings);
      this.keptState = batch.keptState ?? this.keptState;
    }
    if (mishap === 'none') return { kind: 'durable' };
    this.isOpen = false;
    return { kind: 'failed', why: 'EIO' };
  }

  reopenNow(): Reopened {
    this.opens += 1;
    if (this.refuses(this.opens)) return { kind: 'refused', why: 'EIO' };
    this.isOpen = true;
    return { kind: 'open', lastSeq: this.entries.at(-1)?.seq ?? 0, setAside: null };
  }

  write(batch: Batch): Promise<Wrote> {
    return Promise.resolve(this.writeNow(batch));
  }

  reopen(): Promise<Reopened> {
    return Promise.resolve(this.reopenNow());
  }
}

export const momentAt = (millis: number): Now => ({
  monotonic: monotonicMillis(millis),
  wall: wallMillis(Date.UTC(2026, 6, 14) + millis),
});

export const item = (kind: string, json: string, atMillis = 0): Waiting => ({
  at: monotonicMillis(atMillis),
  wall: 'unknown',
  kind,
  json,
  rank: rankOf(kind),
});

/** A queue before a virtual disk that takes `millis` for each call, under a clock that only this turns on. */
export class QueueRun {
  queue: Queue = openQueue(0);
  now = 0;
  readonly disk: VirtualDisk;
  readonly millis: number;
  #answer: { readonly at: number; readonly input: QueueInput } | null = null;

  constructor(disk: VirtualDisk, millis = 5) {
    this.disk = disk;
    this.millis = millis;
  }

  hear(input: QueueInput): void {
    const next = turn(this.queue, input, momentAt(this.now));
    this.queue = next.queue;
    if (next.effect !== null) this.#do(next.effect);
  }

  append(...items: readonly Waiting[]): void {
    this.hear({ kind: 'append', items });
  }

  /** Lets time pass, with all that becomes due in it. */
  until(millis: number): void {
    for (let turns = 0; ; turns += 1) {
      if (turns > 100_000) throw new Error('the queue does not come to rest');
      const wake = wakeAt(this.queue);
      const at = Math.min(this.#answer?.at ?? Infinity, wake ?? Infinity);
      if (at > millis) break;
      this.now = Math.max(this.now, at);
      const answer = this.#answer;
      if (answer !== null && answer.at <= at) {
        this.#answer = null;
        this.hear(answer.input);
      } else this.hear({ kind: 'wake' });
    }
    this.now = millis;
  }

  /** Ends it, and gives it an hour. */
  end(): boolean {
    this.hear({ kind: 'end' });
    this.until(this.now + 3_600_000);
    return isEmpty(this.queue);
  }

  #do(effect: QueueEffect): void {
    if (this.#answer !== null) throw new Error('two calls at once');
    const at = this.now + this.millis;
    this.#answer =
      effect.kind === 'write'
        ? { at, input: { kind: 'wrote', wrote: this.disk.writeNow(effect.batch) } }
        : { at, input: { kind: 'reopened', reopened: this.disk.reopenNow() } };
  }
}
