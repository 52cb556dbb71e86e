import type { Boundary, CropTraits, FarmFile } from './schema.ts';

/** Of a list or a pair too: they stay what they are, and are read only. */
type DeepReadonly<Value> = Value extends object
  ? { readonly [Key in keyof Value]: DeepReadonly<Value[Key]> }
  : Value;

/** How the floods of one day part are given. */
export type Pace =
  | { readonly kind: 'number'; readonly floods: number }
  | { readonly kind: 'rest'; readonly restMinutes: number };

export interface DayPart {
  readonly name: string;
  readonly from: Boundary;
  readonly to: Boundary;
  readonly pace: Pace;
  readonly floodMinutes: number;
}

/** Equal plants on a bench, or none; an empty bench keeps the crop that stood there before. */
export interface Standing extends Pick<
  DeepReadonly<FarmFile['benches'][number]>,
  'crop' | 'plants' | 'sown' | 'startedInPlace'
> {
  readonly traits: CropTraits;
}

/** What stands on a bench from the start of a local day on. */
export interface Next extends Standing {
  readonly on: string;
}

export interface Bench
  extends DeepReadonly<Omit<FarmFile['benches'][number], keyof Standing | 'next'>>, Standing {
  /** What comes next, each after the one before. */
  readonly next: readonly Next[];
}

/** Which pin of the board carries what. */
export type Wiring = NonNullable<Farm['board']>;

/** A farm that has passed every check; everything behind the parser trusts it. */
export interface Farm extends DeepReadonly<Omit<FarmFile, 'benches' | 'crops' | 'dayPlan'>> {
  readonly benches: readonly Bench[];
  /** In order; each part begins where the one before ends, the first where the last ends. */
  readonly dayPlan: readonly DayPart[];
}
