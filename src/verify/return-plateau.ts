import { plateauFlow, STEADY_MINUTES, type Flood } from './flood.ts';

/**
 * What came back in the last minutes of a flood and what the benches may have taken of it at most, against the best that was
 * ever usual for one as long; L/min. In the heat many plants on little water drink a tenth of it and more, and after a long rest
 * slow roots take up as much.
 */
export interface HeldAgainst {
  readonly litresPerMinute: number;
  readonly takenLitresPerMinute: number;
  readonly bestLitresPerMinute: number;
}

/** What floods of one length gave. */
interface OfLength {
  /** Whole minutes. */
  readonly minutes: number;
  readonly litresPerMinute: readonly number[];
  /** The best that was ever usual; 0 before anything was. */
  readonly bestLitresPerMinute: number;
}

/**
 * Whether less comes back than used to: one inlet of several that is blocked, or a filter that clogs a little every day, long
 * before a flood is weak. What is usual follows a slow decline; the best that ever was does not.
 */
export interface PlateauWatch {
  /** By length: a short flood has not filled the channels and returns less, up to a fourteenth in 15 minutes against twenty. */
  readonly lengths: readonly OfLength[];
  readonly last: readonly HeldAgainst[];
  readonly lower: boolean;
}

export const PLATEAU_UNWATCHED: PlateauWatch = { lengths: [], last: [], lower: false };

/**
 * The middle one of three floods below this share of the best is told; from `OVER` on it is over. One of four blocked inlets
 * leaves 0.75 of the flow where the pump cannot push more through the others, and 0.79 on the farm of the example.
 */
const TOLD = 0.88;
const OVER = 0.92;
const MIDDLE_OF = 3;
const LESSON = 5;
/** Longer floods are all alike. */
const MINUTES_MOST = 30;

const middleOf = (litresPerMinute: readonly number[]): number =>
  [...litresPerMinute].sort((a, b) => a - b)[Math.floor(litresPerMinute.length / 2)] ?? 0;

const shareOf = ({ litresPerMinute, takenLitresPerMinute, bestLitresPerMinute }: HeldAgainst): number =>
  (litresPerMinute + takenLitresPerMinute) / bestLitresPerMinute;

/** The middle one of the last floods; null until there are enough. */
const middle = (last: readonly HeldAgainst[]): HeldAgainst | null =>
  last.length < MIDDLE_OF
    ? null
    : ([...last].sort((a, b) => shareOf(a) - shareOf(b))[Math.floor(MIDDLE_OF / 2)] ?? null);

const withFlow = (of: OfLength, flow: number): OfLength => {
  const litresPerMinute = [...of.litresPerMinute, flow].slice(-LESSON);
  const usual = litresPerMinute.length < LESSON ? 0 : middleOf(litresPerMinute);
  return { ...of, litresPerMinute, bestLitresPerMinute: Math.max(of.bestLitresPerMinute, usual) };
};

/** The watch after one more flood that was confirmed by its water, of which the benches may take so much at most, L/min. */
export const plateauAfter = (
  watch: PlateauWatch,
  { minutes, plateau }: Flood,
  takenLitresPerMinute: number,
): PlateauWatch => {
  const flow = plateauFlow(plateau);
  if (minutes < STEADY_MINUTES || flow === null) return watch;
  const length = Math.min(Math.floor(minutes), MINUTES_MOST);
  const asLong = watch.lengths.find((one) => one.minutes === length);
  const others = watch.lengths.filter((one) => one !== asLong);
  const lengths = [
    ...others,
    withFlow(asLong ?? { minutes: length, litresPerMinute: [], bestLitresPerMinute: 0 }, flow),
  ];
  // A longer flood gives at least what a shorter one does, so that a new length need not be learned first.
  const best = Math.max(
    0,
    ...watch.lengths.filter((one) => one.minutes <= length).map((one) => one.bestLitresPerMinute),
  );
  if (best <= 0) return { ...watch, lengths };
  const one = { litresPerMinute: flow, takenLitresPerMinute, bestLitresPerMinute: best };
  const last = [...watch.last, one].slice(-MIDDLE_OF);
  const now = middle(last);
  const share = now === null ? 1 : shareOf(now);
  return { lengths, last, lower: share < (watch.lower ? OVER : TOLD) };
};

/** What is told of a return that is lower than it used to be; null where it is not. */
export const lowerReturn = ({ last, lower }: PlateauWatch): HeldAgainst | null =>
  lower ? middle(last) : null;
