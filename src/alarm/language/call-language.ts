import type { FactKind } from '../facts.ts';

/** Verdicts of the last 24 hours; `others` are told only where there were any. */
export interface FloodCounts {
  readonly confirmed: number;
  readonly weak: number;
  readonly unproven: number;
  readonly missed: number;
  readonly withheld: number;
}

/** How a call opens: whoever hears it must know whether it is new. */
export type Openings = Readonly<Record<'raised' | 'again' | 'escalated' | 'returned', string>>;

/** What a call says beside the card it carries, in one language. */
export interface CallWords {
  /** Each alarm in two or three words, for a list. */
  readonly names: Readonly<Record<FactKind, string>>;
  readonly openings: Openings;
  /** The same for a text message. */
  readonly briefOpenings: Openings;
  readonly comesAndGoes: string;
  /** Before the names of alarms: what the call speaks for besides, what is left of what is over, and so on. */
  readonly lists: Readonly<Record<'with' | 'still' | 'over' | 'first', string>>;
  readonly allWell: string;
  readonly floods: (counts: FloodCounts) => string;
  /** Litres, or what its rule says. */
  readonly tank: (tank: number | 'well' | 'low') => string;
  readonly strength: (millisiemensPerCm: number) => string;
  /** How long the benches last without the pump: a span, or null for more than a day. */
  readonly withoutPump: (span: string | null) => string;
}

/** The counts that are not nought, and the missed floods always: `1 weak, 0 missed`. */
export const countsText = (
  { weak, unproven, missed, withheld }: FloodCounts,
  words: Readonly<Record<Exclude<keyof FloodCounts, 'confirmed'>, (count: number) => string>>,
): string =>
  [
    ...(weak > 0 ? [words.weak(weak)] : []),
    ...(unproven > 0 ? [words.unproven(unproven)] : []),
    words.missed(missed),
    ...(withheld > 0 ? [words.withheld(withheld)] : []),
  ].join(', ');
