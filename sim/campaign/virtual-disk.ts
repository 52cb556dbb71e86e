import type { Batch, Reopened, Wrote, Written } from '../../src/journal/disk.ts';

/** What befalls one write: it may be lost or have arrived when it fails. A disk that lies has lost what it calls durable. */
export type Mishap = 'none' | 'full' | 'fails-before' | 'fails-behind' | 'lies';

/** How a disk behaves; each is asked at the end of a call, with its number from 1 on. */
export interface Conduct {
  readonly mishap: (write: number, batch: Batch) => Mishap;
  readonly refuses: (open: number) => boolean;
}

/** A disk in memory, which outlives the hosts that write on it. */
export class VirtualDisk {
  readonly entries: { readonly seq: number; readonly written: Written }[] = [];
  readonly readings: Written[] = [];
  keptState: string | null = null;
  writes = 0;
  opens = 0;
  isOpen = true;
  readonly conduct: Conduct;

  constructor(mishap: Conduct['mishap'] = () => 'none', refuses: Conduct['refuses'] = () => false) {
    this.conduct = { mishap, refuses };
  }

  write(batch: Batch): Wrote {
    if (!this.isOpen) throw new Error('written to a handle that has failed');
    this.writes += 1;
    const mishap = this.conduct.mishap(this.writes, batch);
    if (mishap === 'full') return { kind: 'full', why: 'the disk is full' };
    if (mishap === 'none' || mishap === 'fails-behind') this.take(batch);
    if (mishap === 'none' || mishap === 'lies') return { kind: 'durable' };
    this.isOpen = false;
    return { kind: 'failed', why: 'EIO' };
  }

  reopen(): Reopened {
    this.opens += 1;
    if (this.conduct.refuses(this.opens)) return { kind: 'refused', why: 'EIO' };
    this.isOpen = true;
    return { kind: 'open', lastSeq: this.entries.at(-1)?.seq ?? 0, setAside: null };
  }

  /** In one piece, as a transaction of a database is. */
  take(batch: Batch): void {
    batch.entries.forEach((written, place) => this.entries.push({ seq: batch.firstSeq + place, written }));
    this.readings.push(...batch.readings);
    this.keptState = batch.keptState ?? this.keptState;
  }
}
