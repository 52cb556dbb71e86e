import type { Farm } from '../../src/farm/farm.ts';
import type { Entry } from '../../src/journal/entry.ts';
import type { InjectorName } from '../faults/injectors.ts';
import type { Channel } from '../../src/ports/sample.ts';

/**
 * All that the judge of a run may see: the true water, the journal as it was exported, and what was broken when. Nothing of
 * what the controller believes.
 */
export interface RunRecord {
  readonly farm: Farm;
  readonly startMillis: number;
  readonly endMillis: number;
  /** From here on nothing is broken. */
  readonly clearMillis: number;
  readonly broken: readonly Broken[];
  /** What the board says bears no time: an old word that comes again is one of now, and no host can tell. */
  readonly undated?: true;
  /** The board floods by a table of its own while no host is heard, and tells of it afterwards. */
  readonly keeps?: true;
  readonly truth: Truth;
  /** Benches, by place, that wilt under this plan with nothing broken too: what no host can know without a look at the plants. */
  readonly thirsty: readonly number[];
  /** In the order in which they happened. */
  readonly rows: readonly Row[];
  /** What the disk has told the host to be on it for good: the last number, whenever that grew. */
  readonly acknowledged: readonly { readonly atMillis: number; readonly lastSeq: number }[];
  readonly tries: readonly Try[];
  /** What people asked of a host that could hear it, as they asked it. */
  readonly orders: readonly OrderGiven[];
}

export interface Stretch {
  readonly fromMillis: number;
  readonly untilMillis: number;
}

export interface Broken extends Stretch {
  readonly name: InjectorName;
  /** Of a sensor that fails. */
  readonly channel?: Channel;
  /** Which way to people. */
  readonly way?: string;
}

/** An order as it was given, whatever became of it. */
export interface OrderGiven {
  readonly atMillis: number;
  readonly order: 'hold' | 'release' | 'flood-now' | 'acknowledge';
  readonly who: string;
  /** For so long, of a hold. */
  readonly minutes: number | null;
  /** Of what is acknowledged. */
  readonly alarm: string | null;
}

/** One try to bring a message to somebody, as it truly went. */
export interface Try {
  readonly channel: string;
  readonly form: string;
  /** Nobody in particular for a posting. */
  readonly person: string | null;
  readonly alarm: string | null;
  readonly kind: string | null;
  readonly priority: string | null;
  /** When the host was asked to call. */
  readonly calledMillis: number;
  readonly fromMillis: number;
  /** Null where its host ended before it. */
  readonly endMillis: number | null;
  readonly outcome: 'reached' | 'failed';
}

/** A line of the exported journal, read back, with the moment at which its host truly wrote it. */
export interface Row {
  /** As it stands on the disk. */
  readonly seq: number;
  /** The life of the host that wrote it: every power cut begins another. */
  readonly life: number;
  readonly atMillis: number;
  readonly entry: Entry;
}

/** What is true after each step of the plant, one place for each. */
export interface Truth {
  readonly atMillis: readonly number[];
  /** Held share of each bench, by bench and then by step. */
  readonly held: readonly (readonly number[])[];
  /** Whether water ran into each bench, L/min. */
  readonly inflow: readonly (readonly number[])[];
  /** What came back from all benches, L/min. */
  readonly returning: readonly number[];
  readonly tankLitres: readonly number[];
  /** Whether host or board could have given water to the bench in this step, by what is broken and what the tank holds. */
  /** Over the benches, whatever a thermometer says. */
  readonly airCelsius: readonly number[];
  /** By bench: whether water could have been given in this step, by what is broken and what the tank holds, for minutes on end; */
  readonly way: readonly (readonly boolean[])[];
  /** and whether there was a drop to give. */
  readonly drop: readonly (readonly boolean[])[];
  /** Stretches in which the pump was switched on. */
  readonly runs: readonly Stretch[];
}

export interface Breach {
  /** `thrown` where the run came to no end: whatever it was that broke, it was the program. */
  readonly invariant: `I${number}` | 'thrown';
  readonly atMillis: number;
  readonly words: string;
}

/** One invariant held against a run. */
export type Check = (record: RunRecord) => readonly Breach[];

export const brokenAt = ({ broken }: RunRecord, names: readonly InjectorName[], span: Stretch): boolean =>
  broken.some(
    ({ name, fromMillis, untilMillis }) =>
      names.includes(name) && fromMillis < span.untilMillis && span.fromMillis < untilMillis,
  );

export const rowsOf = <Kind extends Entry['kind']>(
  { rows }: RunRecord,
  kind: Kind,
): readonly (Row & { readonly entry: Extract<Entry, { kind: Kind }> })[] =>
  rows.filter(
    (row): row is Row & { readonly entry: Extract<Entry, { kind: Kind }> } => row.entry.kind === kind,
  );
