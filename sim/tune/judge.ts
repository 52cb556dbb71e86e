import type { Farm } from '../../src/farm/farm.ts';
import { itemAt } from '../../src/units/assertion.ts';
import { seededDice } from '../dice.ts';
import { CENTRAL, drawnJudgements, type Judgements } from '../plant/judgements.ts';
import type { Sky } from '../weather/sky.ts';
import type { FloodTimes } from './answered.ts';
import { planRun, type PlanTrial, type Stretch } from './plan-run.ts';
import { quickPairs, type QuickPair } from './quick-pairs.ts';

export interface JudgeAsked {
  readonly farm: Farm;
  /** One or more; the runs take them in turn. */
  readonly skies: readonly Sky[];
  readonly stretch: Stretch;
  /** Besides the central run. */
  readonly draws: number;
  readonly seed: number;
  readonly pumpShare: number;
  readonly within: Uint8Array;
}

/** How dry the driest pair of draw and bench gets, by the quick judgement. */
export interface QuickVerdict {
  readonly lowestTheta: number;
  readonly missedTheta: number;
}

/** Judges plans by their floods, given for each sky. */
export interface Judge {
  readonly runs: number;
  readonly skyOf: (run: number) => number;
  /** All pairs of draw and bench, none left out. */
  readonly everyPair: (floodsBySky: readonly FloodTimes[]) => readonly QuickVerdict[];
  /** From now on only these pairs, the first ones first. */
  readonly keepPairs: (places: readonly number[]) => void;
  /** Given up at the first pair that falls below. */
  readonly quick: (floodsBySky: readonly FloodTimes[], giveUpBelow: number) => QuickVerdict;
  /** One run of the whole model: 0 is the central one. */
  readonly whole: (
    run: number,
    floodsBySky: readonly FloodTimes[],
    asked: { readonly traced: boolean },
  ) => PlanTrial;
}

/** What each run takes for what nobody has measured, the central one first. */
export const judgementsOf = (seed: number, draws: number): readonly Judgements[] => {
  const dice = seededDice(seed);
  return [CENTRAL, ...Array.from({ length: draws }, () => drawnJudgements(dice))];
};

export const openJudge = (asked: JudgeAsked): Judge => {
  const { farm, skies, stretch, pumpShare, within } = asked;
  const judgements = judgementsOf(asked.seed, asked.draws);
  const skyOf = (run: number): number => run % skies.length;
  let known: readonly QuickPair[] | null = null;
  const pairs = (): readonly QuickPair[] =>
    (known ??= quickPairs({ farm, skies, skyOf, stretch, pumpShare, judgements, within }));
  let kept: readonly QuickPair[] | null = null;
  return {
    runs: judgements.length,
    skyOf,
    everyPair: (floodsBySky) =>
      pairs().map(({ sky, judge }) => ({ ...judge(itemAt(floodsBySky, sky), -Infinity) })),
    keepPairs: (places) => {
      const all = pairs();
      kept = places.map((place) => itemAt(all, place));
    },
    quick: (floodsBySky, giveUpBelow) => {
      let lowestTheta = Infinity;
      let missedTheta = Infinity;
      for (const { sky, judge } of kept ?? pairs()) {
        const trial = judge(itemAt(floodsBySky, sky), giveUpBelow);
        lowestTheta = Math.min(lowestTheta, trial.lowestTheta);
        missedTheta = Math.min(missedTheta, trial.missedTheta);
        if (missedTheta < giveUpBelow) break;
      }
      return { lowestTheta, missedTheta };
    },
    whole: (run, floodsBySky, { traced }) =>
      planRun(
        { farm, sky: itemAt(skies, skyOf(run)), stretch, pumpShare, within },
        itemAt(judgements, run),
        itemAt(floodsBySky, skyOf(run)),
        { traced },
      ),
  };
};
