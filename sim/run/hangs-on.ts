import { ln } from '../../src/physics/portable-math.ts';
import type { Judgement, Judgements } from '../plant/judgements.ts';

/** How strongly a figure of the runs rose or fell with one thing that nobody has measured. */
export interface Hold {
  readonly judgement: Judgement;
  /** Spearman's rank correlation over the draws, −1 to 1. */
  readonly rank: number;
}

/** With fewer draws a rank correlation tells next to nothing. */
export const DRAWS_LEAST = 16;
/** In so many rehearsals of which the figure hangs on nothing that was asked about, chance may still name something. */
const CHANCE = 0.05;

/**
 * What a standard normal number exceeds with a chance of at most a half; within 4.5e-4. Abramowitz & Stegun 1964,
 * Handbook of Mathematical Functions, eq. 26.2.23 (read from memory).
 */
export const normalQuantile = (chance: number): number => {
  const t = Math.sqrt(-2 * ln(chance));
  const over = 2.515517 + t * (0.802853 + t * 0.010328);
  return t - over / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
};

/**
 * |ρ| that chance alone passes for any of so many things in one rehearsal of twenty: Bonferroni's bound, both tails shared
 * evenly among them, by the normal approximation ρ·√(draws − 1) of Kendall 1948. One of twenty for each of a dozen would
 * name something in every other rehearsal.
 */
const leastRank = (asked: number, draws: number): number =>
  normalQuantile(CHANCE / (2 * asked)) / Math.sqrt(draws - 1);

/** Ranks from 1 on, equal values sharing theirs. */
const ranksOf = (values: readonly number[]): readonly number[] => {
  const order = values.map((_, place) => place).sort((a, b) => (values[a] ?? 0) - (values[b] ?? 0));
  const ranks = values.map(() => 0);
  for (let from = 0; from < order.length;) {
    let until = from + 1;
    while (until < order.length && values[order[until] ?? 0] === values[order[from] ?? 0]) until += 1;
    for (let place = from; place < until; place += 1) ranks[order[place] ?? 0] = (from + until + 1) / 2;
    from = until;
  }
  return ranks;
};

/** Spearman 1904: the correlation of the ranks; 0 where either does not vary. */
export const rankCorrelation = (one: readonly number[], other: readonly number[]): number => {
  const [a, b] = [ranksOf(one), ranksOf(other)];
  const mean = (a.length + 1) / 2;
  let [both, first, second] = [0, 0, 0];
  a.forEach((rank, place) => {
    const [da, db] = [rank - mean, (b[place] ?? mean) - mean];
    both += da * db;
    first += da * da;
    second += db * db;
  });
  return first === 0 || second === 0 ? 0 : both / Math.sqrt(first * second);
};

/**
 * What a figure hangs on among the things asked about, the strongest first; only what chance alone would hardly show.
 * Empty with fewer than 16 draws.
 */
export const hangsOn = (
  draws: readonly { readonly judgements: Judgements; readonly figure: number }[],
  asked: readonly Judgement[],
): readonly Hold[] => {
  if (draws.length < DRAWS_LEAST || asked.length === 0) return [];
  const figures = draws.map(({ figure }) => figure);
  const least = leastRank(asked.length, draws.length);
  return asked
    .map((judgement) => ({
      judgement,
      rank: rankCorrelation(
        draws.map(({ judgements }) => judgements[judgement]),
        figures,
      ),
    }))
    .filter(({ rank }) => Math.abs(rank) >= least)
    .toSorted((a, b) => Math.abs(b.rank) - Math.abs(a.rank));
};
