import { standingLitres } from '../farm/channel-water.ts';
import type { Farm } from '../farm/farm.ts';
import { itemAt } from '../units/assertion.ts';
import { DRAIN_MINUTES, dried, dryEdgeLossPerMinute, wettedDryEdge } from './belief.ts';
import type { BenchFacts } from './bench-facts.ts';

/** Water carried by hand to one bench while the pump cannot run. */
export interface BucketRound {
  readonly bench: string;
  readonly channels: number;
  /** Poured at the upper end of each channel: what a flood leaves standing in it. */
  readonly litresPerChannel: number;
  /** From one pour to the next, so that the dry edge of the doubt stays above the wilt floor; `null`: no pace of pours does. */
  readonly everyMinutes: number | null;
  /** Minutes from a bench that has just been flooded to its wilt floor, on the dry edge: who dries first is poured first. */
  readonly minutesFromFull: number;
}

/** Nobody measures half litres more finely than this with a bucket in the dark. */
const LITRES_STEP = 0.5;
/** A round is walked, not timed to the minute. */
const EVERY_STEP_MINUTES = 5;
/** Water that has stood for longer has lost its oxygen to the roots: common practice, no source. */
export const EVERY_MINUTES_MAX = 240;
/** Pours until the same low comes again at each; a bench that falls goes on falling for far fewer. */
const POURS = 40;

/** Whether a bench that starts full stays above its wilt floor under one pour every so many minutes. */
const holds = (farm: Farm, lossPerMinute: number, everyMinutes: number): boolean => {
  let theta = 1;
  for (let pour = 0; pour < POURS; pour += 1) {
    theta = dried(theta, lossPerMinute, farm.floors.stress, everyMinutes);
    if (theta < farm.floors.wilt) return false;
    // As after a flood: what stands in the channel wets the roots while it runs off.
    theta = wettedDryEdge(theta, DRAIN_MINUTES);
  }
  return true;
};

const longestPace = (farm: Farm, lossPerMinute: number): number | null => {
  let found: number | null = null;
  for (let every = EVERY_STEP_MINUTES; every <= EVERY_MINUTES_MAX; every += EVERY_STEP_MINUTES) {
    if (!holds(farm, lossPerMinute, every)) break;
    found = every;
  }
  return found;
};

/** `dried` falls in a straight line to the stress floor and then ever more slowly; minutes are taken one by one. */
const minutesToWilt = (farm: Farm, lossPerMinute: number): number => {
  let minutes = 0;
  while (minutes < 24 * 60 && dried(1, lossPerMinute, farm.floors.stress, minutes + 1) > farm.floors.wilt) {
    minutes += 1;
  }
  return minutes;
};

/**
 * The rounds of all planted benches, the first to dry first.
 * `millimetresPerHour`: reference uptake of the hours that the round is for.
 */
export const bucketRounds = (
  farm: Farm,
  facts: readonly BenchFacts[],
  millimetresPerHour: number,
): readonly BucketRound[] =>
  farm.benches
    .flatMap((bench, place): readonly BucketRound[] => {
      const known = itemAt(facts, place);
      if (!known.planted) return [];
      const loss = dryEdgeLossPerMinute(known, millimetresPerHour);
      const perChannel = standingLitres(bench) / bench.channels;
      return [
        {
          bench: bench.name,
          channels: bench.channels,
          litresPerChannel: Math.ceil(perChannel / LITRES_STEP) * LITRES_STEP,
          everyMinutes: longestPace(farm, loss),
          minutesFromFull: minutesToWilt(farm, loss),
        },
      ];
    })
    .sort((a, b) => a.minutesFromFull - b.minutesFromFull);
