import { OXYGEN_HARMS } from '../simulated-shed.ts';
import type { Choice, Judged } from './choices.ts';

/** What keeps a part of the day from having fewer floods. */
export interface Limit {
  readonly by: 'water' | 'oxygen' | 'heat' | 'nothing';
  /** Share of the runs that say so, 0 to 1; of "nothing" those that say no other thing. */
  readonly sure: number;
  /** Runs short of water with the next fewer floods; null where no fewer were tried. */
  readonly waterRuns: number | null;
  /** Runs whose roots fall below the oxygen at which growth is known to be unharmed, with the fewest safe floods and with the most shown. */
  readonly oxygenRuns: { readonly smallest: number; readonly most: number };
  /** Runs whose channels get warmer than roots like, as above. */
  readonly heatRuns: { readonly smallest: number; readonly most: number };
  readonly runs: number;
}

/** Above this water about the roots of leaf crops is held to be too warm; common practice, no source. */
export const WARM_CELSIUS = 30;

const counted = ({ trials }: Judged, of: (trial: Judged['trials'][number]) => boolean): number =>
  trials.filter(of).length;

/**
 * What a part of the day is limited by, from the choices in order of their cost: water where fewer floods fail; oxygen or heat where more floods
 * would spare at least one run in ten what harms roots; else nothing.
 */
export const limitOf = (choices: readonly Choice[], smallest: Choice): Limit | null => {
  const own = smallest.judged;
  if (own === null) return null;
  const place = choices.indexOf(smallest);
  const runs = own.trials.length;
  const fewer = choices.slice(0, place).findLast(({ judged }) => judged !== null)?.judged ?? null;
  const most = choices.findLast(({ judged }) => judged !== null)?.judged ?? own;
  const starved = (judged: Judged): number =>
    counted(judged, ({ lowestOxygen }) => lowestOxygen < OXYGEN_HARMS.unharmed);
  const warm = (judged: Judged): number =>
    counted(judged, ({ warmestCelsius }) => warmestCelsius > WARM_CELSIUS);
  const oxygenRuns = { smallest: starved(own), most: starved(most) };
  const heatRuns = { smallest: warm(own), most: warm(most) };
  const waterRuns = fewer?.failing ?? null;
  const spared = (harmed: { readonly smallest: number; readonly most: number }): number =>
    (harmed.smallest - harmed.most) / runs;
  const found = { waterRuns, oxygenRuns, heatRuns, runs };
  const candidates = [
    { by: 'water', sure: (waterRuns ?? 0) / runs },
    { by: 'oxygen', sure: spared(oxygenRuns) },
    { by: 'heat', sure: spared(heatRuns) },
  ] as const;
  if (waterRuns !== null && waterRuns > 0) return { ...found, ...candidates[0] };
  const other = candidates.slice(1).toSorted((a, b) => b.sure - a.sure)[0];
  if (other !== undefined && other.sure >= 0.1) return { ...found, ...other };
  return { ...found, by: 'nothing', sure: 1 - Math.max(0, ...candidates.map(({ sure }) => sure)) };
};
