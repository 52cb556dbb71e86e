import { canopyCover, grownShare } from '../../src/physics/growth.ts';
import { heldMillilitresMax } from '../../src/physics/holding.ts';
import { canopyResponse, type CanopyResponse } from '../../src/physics/uptake.ts';
import { itemAt } from '../../src/units/assertion.ts';
import type { BenchBuild, Planting } from './build.ts';
import { FIXED, type Judgements } from './judgements.ts';

const MILLIS_PER_DAY = 86_400_000;
const MINUTES_PER_HOUR = 60;

/** What a bench does at its age today: the judgements scaled to its channels and plants. */
export interface BenchToday {
  /** k in L^-0.5/min, scaled so that twice the channel drains twice the flow at twice the water. */
  readonly drainCoefficient: number;
  readonly wettingLitres: number;
  readonly refillPerMinute: number;
  readonly capacityLitres: number;
  /** Held litres below which uptake falls. */
  readonly stressLitres: number;
  readonly canopy: CanopyResponse;
  /** Wet surface of cups that no leaf shades, m². */
  readonly wetCupSquareMetres: number;
  readonly airExchangeLitresPerMinute: number;
  readonly pipeLitres: number;
  /** K·L/min per W/m². */
  readonly sunWarming: number;
  /** kLA at 20 °C. */
  readonly aerationLitresPerMinute: number;
  /** Of held and flowing water. */
  readonly mixingPerMinute: number;
  /** Oxygen that the roots use at 25 °C, mg per litre of capacity and minute. */
  readonly respirationPerLitre: number;
}

export const plantingAt = ({ plantings }: BenchBuild, atMillis: number): Planting =>
  plantings.findLast(({ fromMillis }) => fromMillis <= atMillis) ?? itemAt(plantings, 0);

export const ageDays = (planting: Planting, atMillis: number): number =>
  Math.max(0, (atMillis - planting.sownMillis) / MILLIS_PER_DAY);

/** How well a cup takes water from the film: one that was started in place must root into it first. */
const contactOf = ({ startedInPlace }: Planting, rootGrams: number, judged: Judgements): number =>
  startedInPlace
    ? judged.cupContact + (1 - judged.cupContact) * Math.min(1, rootGrams / FIXED.rootGramsInFilm)
    : 1;

export const benchToday = (build: BenchBuild, judged: Judgements, atMillis: number): BenchToday => {
  const planting = plantingAt(build, atMillis);
  const { plants, plantsPerSquareMetre } = planting;
  const grown = grownShare(ageDays(planting, atMillis), planting.halfGrownDays, planting.growthPerDay);
  const leafSquareMetres = planting.leafSquareMetresMax * grown * judged.leafFactor;
  const rootGrams = planting.rootGramsMax * grown;
  const size = build.channelMetres / FIXED.channelMetres;
  const perPlant = heldMillilitresMax(rootGrams) * judged.capacityFactor;
  const capacityLitres = (Math.max(1, plants) * perPlant) / 1000;
  const cover = canopyCover(leafSquareMetres * plantsPerSquareMetre, FIXED.extinction);
  const wetRootGrams = plants * rootGrams * judged.rootDryShare * judged.rootSubmergedShare;
  return {
    drainCoefficient: judged.drainCoefficient / Math.sqrt(size),
    wettingLitres: judged.wettingLitres * size,
    refillPerMinute: judged.refillPerMinute * contactOf(planting, rootGrams, judged),
    capacityLitres,
    stressLitres: judged.stressTheta * capacityLitres,
    canopy: canopyResponse({
      plants,
      plantsPerSquareMetre,
      leafSquareMetresPerPlant: leafSquareMetres,
      radiationShare: judged.radiationShare,
      extinction: FIXED.extinction,
      deficitWatts: judged.deficitWatts,
    }),
    wetCupSquareMetres: planting.startedInPlace ? plants * judged.cupSquareMetres * (1 - cover) : 0,
    airExchangeLitresPerMinute: judged.airExchangeLitresPerMinute * size,
    pipeLitres: FIXED.pipeLitres * size,
    sunWarming: FIXED.sunWarming * size * (1 - FIXED.sunWarmingShaded * cover),
    aerationLitresPerMinute: judged.aerationLitresPerMinute * size,
    mixingPerMinute: judged.mixingPerMinute,
    respirationPerLitre: (judged.respirationMilligrams * wetRootGrams) / (MINUTES_PER_HOUR * capacityLitres),
  };
};
