import { createHash } from 'node:crypto';
import type { Farm } from '../../src/farm/farm.ts';
import type { InjectorName } from '../faults/injectors.ts';
import type { RunRecord, Truth } from '../oracle/record.ts';
import type { BoardKind } from './met-board.ts';
import { injected, type Script } from './script.ts';
import type { Upkeep } from './upkeep.ts';

export interface CampaignRun {
  readonly record: RunRecord;
  readonly hits: ReadonlySet<InjectorName>;
  /** Of the exported journal. */
  readonly hash: string;
}

/** The run as it is judged: the journal as it came to the disk, in text, so that the judge sees what a reader would. */
export const runOf = (
  asked: Pick<RunRecord, 'startMillis' | 'endMillis' | 'clearMillis' | 'undated' | 'orders'> & {
    readonly farm: Farm;
    readonly boardKind: BoardKind;
    readonly script: Script;
  },
  truth: Truth,
  hits: ReadonlySet<InjectorName>,
  upkeep: Upkeep,
): CampaignRun => {
  const { farm, script, boardKind, startMillis, endMillis, clearMillis, undated, orders } = asked;
  const { text, ...written } = upkeep.record();
  return {
    record: {
      farm,
      startMillis,
      endMillis,
      clearMillis,
      ...(undated === undefined ? {} : { undated }),
      ...(boardKind === 'keeps' ? { keeps: true } : {}),
      broken: injected(script),
      truth,
      thirsty: [],
      orders,
      ...written,
    },
    hits,
    hash: createHash('sha256').update(text).digest('hex'),
  };
};
