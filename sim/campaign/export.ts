import { createHash } from 'node:crypto';
import type { Farm } from '../../src/farm/farm.ts';
import type { Entry } from '../../src/journal/entry.ts';
import type { InjectorName } from '../faults/injectors.ts';
import type { Row, RunRecord, Truth } from '../oracle/record.ts';
import { injected, type Script } from './script.ts';

export interface CampaignRun {
  readonly record: RunRecord;
  readonly hits: ReadonlySet<InjectorName>;
  /** Of the exported journal. */
  readonly hash: string;
}

/** The journal of a run as it is exported: text, so that the judge sees what a reader would. */
export interface Export {
  readonly write: (entries: readonly Entry[], by: Pick<Row, 'life' | 'atMillis'>) => void;
  /** The run as it is judged, with what has been written up to now. */
  readonly runOf: (
    asked: Pick<RunRecord, 'startMillis' | 'endMillis' | 'clearMillis' | 'undated'> & {
      readonly farm: Farm;
      readonly script: Script;
    },
    truth: Truth,
    hits: ReadonlySet<InjectorName>,
  ) => CampaignRun;
}

export const createExport = (): Export => {
  const lines: string[] = [];
  const rows: Pick<Row, 'life' | 'atMillis'>[] = [];
  return {
    write: (entries, by) => {
      for (const entry of entries) {
        lines.push(JSON.stringify(entry));
        rows.push(by);
      }
    },
    runOf: ({ farm, script, startMillis, endMillis, clearMillis, undated }, truth, hits) => ({
      record: {
        farm,
        startMillis,
        endMillis,
        clearMillis,
        ...(undated === undefined ? {} : { undated }),
        broken: injected(script),
        truth,
        thirsty: [],
        rows: rows.map((row, seq): Row => ({ ...row, seq, entry: JSON.parse(lines[seq] ?? '') as Entry })),
      },
      hits,
      hash: createHash('sha256').update(lines.join('\n')).digest('hex'),
    }),
  };
};
