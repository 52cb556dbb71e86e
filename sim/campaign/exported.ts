import type { Entry } from '../../src/journal/entry.ts';
import type { Row, RunRecord } from '../oracle/record.ts';
import type { Moment } from './tampering.ts';
import type { VirtualDisk } from './virtual-disk.ts';

/** The journal as it is read back from the disk, each line with the moment at which a host truly wrote it. */
export class Exported {
  readonly #disk: VirtualDisk;
  /** By the line itself: what was requeued is another object. */
  readonly #moments = new Map<string, { readonly life: number; readonly atMillis: number }>();
  #last = { life: 1, atMillis: 0 };

  constructor(disk: VirtualDisk) {
    this.#disk = disk;
  }

  entered(entries: readonly Entry[], { life, atMillis }: Moment): void {
    this.#last = { life, atMillis };
    for (const { at, wall, kind, ...rest } of entries)
      this.#moments.set(lineOf({ at, wall, kind, json: JSON.stringify(rest) }), this.#last);
  }

  read(): Pick<RunRecord, 'rows'> & { readonly text: string } {
    const lines = this.#disk.entries.map(({ written }) => lineOf(written));
    let before = { life: 1, atMillis: 0 };
    const rows = this.#disk.entries.map(({ seq, written }, place): Row => {
      // What the queue itself writes, that it gave something up, stands where it is told.
      before = this.#moments.get(lines[place] ?? '') ?? before;
      const { at, wall, kind } = written;
      return { seq, ...before, entry: { ...(JSON.parse(written.json) as object), at, wall, kind } as Entry };
    });
    return {
      text: lines.join('\n'),
      rows: rows.toSorted(
        (one, other) => one.life - other.life || one.atMillis - other.atMillis || one.seq - other.seq,
      ),
    };
  }
}

const lineOf = (line: {
  readonly at: number;
  readonly wall: unknown;
  readonly kind: string;
  readonly json: string;
}): string => `${line.at} ${String(line.wall)} ${line.kind} ${line.json}`;
