import type { Farm } from '../../src/farm/farm.ts';
import { itemAt } from '../../src/units/assertion.ts';
import { benchToday } from '../plant/bench.ts';
import { flowsThrough } from '../plant/branches.ts';
import type { Judgements } from '../plant/judgements.ts';
import { plantOf } from '../run/farm-plant.ts';
import type { Sky } from '../weather/sky.ts';
import type { FloodTimes } from './answered.ts';
import type { Stretch } from './plan-run.ts';
import { quickBench, type QuickTrial } from './quick-bench.ts';
import { weatherSums } from './weather-sums.ts';

const MINUTE_MILLIS = 60_000;
/** As often as the plant takes its canopies afresh. */
const GROWTH_MILLIS = 6 * 3_600_000;

/** The plants of one bench, from when they come to when they go, under one draw and the sky of that run. */
export interface QuickPair {
  readonly sky: number;
  /** Keeps its answer until it is asked again. */
  readonly judge: (floods: FloodTimes, giveUpBelow: number) => Readonly<QuickTrial>;
}

export interface PairsAsked {
  readonly farm: Farm;
  readonly skies: readonly Sky[];
  readonly skyOf: (run: number) => number;
  readonly stretch: Stretch;
  readonly pumpShare: number;
  readonly within: Uint8Array;
  /** One for each run. */
  readonly judgements: readonly Judgements[];
}

/** Every pair of a draw and the plants of a bench: what a plan must wet, whatever nobody has measured. */
export const quickPairs = (asked: PairsAsked): readonly QuickPair[] => {
  const { farm, stretch, pumpShare } = asked;
  const { startMillis, minutes } = stretch;
  const sumsUnder = asked.skies.map((sky) => weatherSums(sky, stretch, farm.place));
  const firstSlot = Math.floor(startMillis / GROWTH_MILLIS);
  const lastSlot = Math.floor((startMillis + minutes * MINUTE_MILLIS) / GROWTH_MILLIS);
  const minuteOf = (millis: number): number => (millis - startMillis) / MINUTE_MILLIS;
  const slots = Array.from({ length: lastSlot - firstSlot + 1 }, (_, place) => firstSlot + place);
  return asked.judgements.flatMap((judgements, run) => {
    const build = plantOf(farm, judgements);
    const sky = asked.skyOf(run);
    const sums = itemAt(sumsUnder, sky)(judgements);
    const flows = flowsThrough(
      build,
      build.benches.map(() => 1),
    );
    return build.benches.flatMap((bench, place) => {
      return bench.plantings.flatMap((planting, order) => {
        const standing = {
          fromMinute: Math.max(0, minuteOf(planting.fromMillis)),
          untilMinute: minuteOf(bench.plantings[order + 1]?.fromMillis ?? Infinity),
        };
        const counts = standing.fromMinute < stretch.untilMinute && standing.untilMinute > stretch.fromMinute;
        if (planting.plants === 0 || !counts) return [];
        const ages = slots
          .filter(
            (slot) =>
              minuteOf((slot + 1) * GROWTH_MILLIS) > standing.fromMinute &&
              minuteOf(slot * GROWTH_MILLIS) < standing.untilMinute,
          )
          .map((slot) => {
            const asOf = Math.max(slot * GROWTH_MILLIS, planting.fromMillis);
            return { fromMinute: minuteOf(asOf), today: benchToday(bench, judgements, asOf) };
          });
        const judge = quickBench({
          inflowLitresPerMinute: itemAt(flows, place) * judgements.flowFactor * pumpShare,
          standing,
          ages,
          sums,
          fromMinute: stretch.fromMinute,
          untilMinute: stretch.untilMinute,
          within: asked.within,
        });
        return [{ sky, judge }];
      });
    });
  });
};
