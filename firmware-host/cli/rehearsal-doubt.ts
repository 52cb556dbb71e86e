import type { Farm } from '../../src/farm/farm.ts';
import { hasPlants, standingsOf } from '../../src/farm/standing.ts';
import { itemAt } from '../../src/units/assertion.ts';
import {
  bandOf,
  BREATHING_LAW_CELSIUS,
  hangsOn,
  JUDGEMENTS,
  OXYGEN_HARMS,
  OXYGEN_LAW_CELSIUS,
  REAERATION_LAW_CELSIUS,
  type Hold,
  type Judgement,
} from '../simulated-shed.ts';
import { JUDGEMENT_WORDS } from './judgement-words.ts';
import { rounded, type Rehearsal } from './rehearsal.ts';

const planted = ({ farm }: Rehearsal, place: number): boolean => hasPlants(itemAt(farm.benches, place));

/** Of each run the figure on which the verdict stands: the worst planted bench's θ with one flood missed, or its lowest. */
const figures = (rehearsal: Rehearsal): readonly number[] => {
  const byMiss = rehearsal.faults.length === 0 && rehearsal.verdict.kind !== 'may-wilt';
  return rehearsal.outcomes.map(({ benches }) =>
    Math.min(
      ...benches.flatMap(({ oneMiss, lowest }, place) =>
        planted(rehearsal, place) ? [byMiss ? oneMiss.theta : lowest.value] : [],
      ),
    ),
  );
};

/** The water of the plant asks neither how warm it is nor what oxygen or salts it holds (docs/model.md, 1–3). */
const NOT_OF_WATER: ReadonlySet<Judgement> = new Set<Judgement>([
  'airExchangeLitresPerMinute',
  'aerationLitresPerMinute',
  'respirationMilligrams',
  'respirationQ10',
  'rootDryShare',
  'rootSubmergedShare',
  'mixingPerMinute',
  'pipeLitres',
  'sunWarming',
  'sunWarmingShaded',
  'tankExchangeLitresPerMinute',
  'saltUptake',
  'saltHalfStrength',
  'oxygenHalf',
  'floodSaturation',
]);

/** Whether it matters only where seedlings stand in bare cups. */
const isOfCups = (judgement: Judgement): boolean =>
  judgement === 'cupContact' || judgement === 'cupSquareMetres' || judgement === 'rootGramsInFilm';

const hasCups = ({ benches }: Farm): boolean =>
  benches.flatMap(standingsOf).some(({ startedInPlace, plants }) => startedInPlace && plants > 0);

/** Whether it can move held water here at all; what cannot would be named by chance alone. */
export const movesWater = (farm: Farm, judgement: Judgement): boolean =>
  isOfCups(judgement) ? hasCups(farm) : !NOT_OF_WATER.has(judgement);

/** The same of the oxygen in it: the water decides how much there is to breathe from, salts do not drift far enough. */
export const movesOxygen = (farm: Farm, judgement: Judgement): boolean =>
  isOfCups(judgement) ? hasCups(farm) : judgement !== 'saltUptake' && judgement !== 'saltHalfStrength';

/** What the verdict hangs on, the strongest first; empty with too few draws to tell. */
export const verdictHangsOn = (rehearsal: Rehearsal): readonly Hold[] => {
  const all = figures(rehearsal);
  return hangsOn(
    rehearsal.outcomes.flatMap(({ draw, judgements }, run) =>
      draw === 'central' ? [] : [{ judgements, figure: all[run] ?? 0 }],
    ),
    JUDGEMENTS.filter((judgement) => movesWater(rehearsal.farm, judgement)),
  );
};

const HOLDS_TOLD = 3;

/** What a figure hangs on most, in one sentence; none where nothing stands out. */
export const holdsText = (what: string, all: readonly Hold[]): readonly string[] => {
  const holds = all.slice(0, HOLDS_TOLD);
  const [first] = holds;
  if (first === undefined) return [];
  const words = holds.map(
    ({ judgement, rank }) =>
      `${JUDGEMENT_WORDS[judgement].is} (${rank < 0 ? '−' : '+'}${Math.abs(rank).toFixed(2)})`,
  );
  const { test } = JUDGEMENT_WORDS[first.judgement];
  return [
    `${what} hangs most on ${words.join(', then ')}; in brackets Spearman's rank correlation over the draws.` +
      (test === null ? '' : ` To know better: ${test} (docs/model.md).`),
  ];
};

export const hangsOnText = (rehearsal: Rehearsal): readonly string[] =>
  holdsText('The verdict', verdictHangsOn(rehearsal));

const LAWS = [
  { of: 'the oxygen it holds', law: OXYGEN_LAW_CELSIUS },
  { of: 'the breathing of lettuce', law: BREATHING_LAW_CELSIUS },
  { of: 'its uptake of oxygen from the air', law: REAERATION_LAW_CELSIUS },
] as const;

/** Which laws of oxygen are stretched past what was published; empty where none is. */
const stretchedText = (warmest: number): readonly string[] => {
  const beyond = LAWS.filter(({ law }) => warmest > law.most).map(
    ({ of, law }) => `${of} is published (${law.least} to ${law.most} °C)`,
  );
  return beyond.length === 0
    ? []
    : [`Water of ${rounded(warmest, 0)} °C is warmer than any for which ${beyond.join(', or ')}.`];
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
  const harmed = lows.filter((value) => value <= OXYGEN_HARMS.harmed).length;
  const warmest = Math.max(
    ...rehearsal.outcomes.flatMap(({ benches }) => benches.map(({ warmest: { value } }) => value)),
  );
  // To the low side: 2.06 mg/L are no 2.1.
  const said = [low, middle, high].map((value) => (Math.floor(value * 10) / 10).toFixed(1));
  const told =
    lows.length === 1 ? `${said[0] ?? ''} mg/L` : `${said.join(' – ')} mg/L (5, 50 and 95 % of the runs)`;
  const band = `Lowest oxygen about the roots: ${told}, never certain without a field test.`;
  return [
    short === 0
      ? band
      : `${band} In ${short} of ${lows.length} runs it falls below the ${OXYGEN_HARMS.unharmed} mg/L at which growth is known to be unharmed.`,
    ...(harmed === 0
      ? []
      : [
          `In ${harmed} of ${lows.length} runs it falls to the ${OXYGEN_HARMS.harmed} mg/L at which growth was harmed, or lower.`,
        ]),
    ...stretchedText(warmest),
  ];
};
