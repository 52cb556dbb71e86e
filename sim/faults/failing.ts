import { exp } from '../../src/physics/portable-math.ts';
import type { Dice } from '../dice.ts';

/** The ways in which a sensor fails, as the board sees it. */
export const WAYS = ['off', 'stuck', 'garbage', 'wrong', 'slow', 'delayed', 'intermittent'] as const;
export type Way = (typeof WAYS)[number];

/** One sensor that fails in one way for a time; `part` is its key in the wiring of the farm file. */
export interface Failing {
  readonly part: string;
  readonly way: Way;
  readonly fromMillis: number;
  readonly untilMillis: number;
}

/** What a sensor's signal may be: its range, and what the board sees of a cut cable. */
export interface Signal {
  readonly kind: 'level' | 'contact';
  readonly least: number;
  readonly most: number;
  readonly cut: number;
}

/** How bad each way is; engineering judgement, no source. */
const BAD = {
  /** Of the range, towards what the plan would take for cool, dry or idle. */
  wrongShare: -0.2,
  lagMinutes: 30,
  delayMinutes: 15,
  /** A loose contact is in and out for some seconds each. */
  looseSeconds: 10,
} as const;

/** What a failing sensor tells for the truth at each moment; moments never run backwards. */
export type Spoiled = (truth: number, atMillis: number) => number;

const slow = ({ kind }: Signal): Spoiled => {
  let shown: number | null = null;
  let beforeMillis = 0;
  return (truth, atMillis) => {
    shown ??= truth;
    const share = 1 - exp(-(atMillis - beforeMillis) / (BAD.lagMinutes * 60_000));
    beforeMillis = atMillis;
    shown += (truth - shown) * share;
    return kind === 'contact' ? Math.round(shown) : shown;
  };
};

const delayed = (): Spoiled => {
  const seen: { readonly truth: number; readonly atMillis: number }[] = [];
  return (truth, atMillis) => {
    seen.push({ truth, atMillis });
    const due = atMillis - BAD.delayMinutes * 60_000;
    while (seen[1] !== undefined && seen[1].atMillis <= due) seen.shift();
    return seen[0]?.truth ?? truth;
  };
};

const intermittent = ({ cut }: Signal, dice: Dice): Spoiled => {
  let loose = false;
  let untilMillis = 0;
  return (truth, atMillis) => {
    if (atMillis >= untilMillis) {
      loose = !loose;
      untilMillis = atMillis + BAD.looseSeconds * 2000 * dice();
    }
    return loose ? cut : truth;
  };
};

const stuck = (): Spoiled => {
  let held: number | null = null;
  return (truth) => (held ??= truth);
};

/** A sensor of this signal that fails in this way from its first call on. */
export const spoiled = (way: Way, signal: Signal, dice: Dice): Spoiled => {
  const { kind, least, most, cut } = signal;
  switch (way) {
    case 'off':
      return () => cut;
    case 'stuck':
      return stuck();
    case 'garbage':
      return () => {
        const any = least + (most - least) * dice();
        return kind === 'contact' ? Math.round(any) : any;
      };
    case 'wrong':
      return (truth) =>
        kind === 'contact'
          ? least + most - truth
          : Math.min(most, Math.max(least, truth + BAD.wrongShare * (most - least)));
    case 'slow':
      return slow(signal);
    case 'delayed':
      return delayed();
    case 'intermittent':
      return intermittent(signal, dice);
  }
};
