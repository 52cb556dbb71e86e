import { bandOf, hangsOn, OXYGEN_HARMS, OXYGEN_LAW_CELSIUS, type Hold } from '../simulated-shed.ts';
import { JUDGEMENT_WORDS } from './judgement-words.ts';
import { rounded, type Rehearsal } from './rehearsal.ts';

const planted = ({ farm }: Rehearsal, place: number): boolean => (farm.benches[place]?.plants ?? 0) > 0;

/** Of each run the figure on which the verdict stands: the worst planted bench's θ with one flood missed, or its lowest. */
const figures = (rehearsal: Rehearsal): readonly number[] =>
  rehearsal.outcomes.map(({ benches }) =>
    Math.min(
      ...benches.flatMap(({ oneMiss, lowest }, place) =>
        planted(rehearsal, place) ? [rehearsal.faults.length === 0 ? oneMiss.theta : lowest.value] : [],
      ),
    ),
  );

/** What the verdict hangs on, the strongest first; empty with too few draws to tell. */
export const verdictHangsOn = (rehearsal: Rehearsal): readonly Hold[] => {
  const all = figures(rehearsal);
  return hangsOn(
    rehearsal.outcomes.flatMap(({ draw, judgements }, run) =>
      draw === 'central' ? [] : [{ judgements, figure: all[run] ?? 0 }],
    ),
  );
};

const HOLDS_TOLD = 3;

export const hangsOnText = (rehearsal: Rehearsal): readonly string[] => {
  const holds = verdictHangsOn(rehearsal).slice(0, HOLDS_TOLD);
  const [first] = holds;
  if (first === undefined) return [];
  const words = holds.map(
    ({ judgement, rank }) =>
      `${JUDGEMENT_WORDS[judgement].is} (${rank < 0 ? '−' : '+'}${Math.abs(rank).toFixed(2)})`,
  );
  const { test } = JUDGEMENT_WORDS[first.judgement];
  return [
    `The verdict hangs most on ${words.join(', then ')}; in brackets Spearman's rank correlation over the draws.` +
      (test === null ? '' : ` To know better: ${test} (docs/model.md).`),
  ];
};

/** Oxygen is always a band, and what nobody has published is said to be so. */
export const oxygenText = (rehearsal: Rehearsal): readonly string[] => {
  const lows = rehearsal.outcomes.map(({ benches }) =>
    Math.min(
      ...benches.flatMap(({ lowestOxygen }, place) =>
        planted(rehearsal, place) ? [lowestOxygen.value] : [],
      ),
    ),
  );
  if (!lows.every(Number.isFinite)) return [];
  const { low, middle, high } = bandOf(lows);
  const short = lows.filter((value) => value < OXYGEN_HARMS.unharmed).length;
  const warmest = Math.max(
    ...rehearsal.outcomes.flatMap(({ benches }) => benches.map(({ warmest: { value } }) => value)),
  );
  const band = `Lowest oxygen about the roots: ${[low, middle, high].map((value) => value.toFixed(1)).join(' – ')} mg/L (5, 50 and 95 % of the runs), never certain without a field test.`;
  return [
    short === 0
      ? band
      : `${band} In ${short} of ${lows.length} runs it falls below the ${OXYGEN_HARMS.unharmed} mg/L at which growth is known to be unharmed.`,
    ...(warmest > OXYGEN_LAW_CELSIUS.most
      ? [
          `Water of ${rounded(warmest, 0)} °C is warmer than any for which the oxygen it holds is published (${OXYGEN_LAW_CELSIUS.least} to ${OXYGEN_LAW_CELSIUS.most} °C).`,
        ]
      : []),
  ];
};
