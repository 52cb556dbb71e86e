import { canopyCover, grownShare } from '../../src/physics/growth.ts';
import { heldMillilitresMax } from '../../src/physics/holding.ts';
import { canopyResponse, type CanopyResponse } from '../../src/physics/uptake.ts';
import { itemAt } from '../../src/units/assertion.ts';
import type { BenchBuild, Planting } from './build.ts';
import { drainCoefficientOf, drainExponentOf, type Drain } from './drain.ts';
import { CHANNEL_METRES, type Judgements } from './judgements.ts';

const MILLIS_PER_DAY = 86_400_000;
const MINUTES_PER_HOUR = 60;

/** What a bench does at its age today: the judgements scaled to its channels and plants. */
export interface BenchToday extends Drain {
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
  /** mg/L at which they use half of that. */
  readonly oxygenHalf: number;
  /** Of the water that the pump brings. */
  readonly floodSaturation: number;
  /** mS/cm·L per litre drunk, and the strength at which half of it is taken up. */
  readonly saltUptake: number;
  readonly saltHalfStrength: number;
}

export const plantingAt = ({ plantings }: BenchBuild, atMillis: number): Planting =>
  plantings.findLast(({ fromMillis }) => fromMillis <= atMillis) ?? itemAt(plantings, 0);

export const ageDays = (planting: Planting, atMillis: number): number =>
  Math.max(0, (atMillis - planting.sownMillis) / MILLIS_PER_DAY);

/** How well a cup takes water from the film: one that was started in place must root into it first. */
const contactOf = ({ startedInPlace }: Planting, rootGrams: number, judged: Judgements): number =>
  startedInPlace
    ? judged.cupContact + (1 - judged.cupContact) * Math.min(1, rootGrams / judged.rootGramsInFilm)
    : 1;

export const benchToday = (build: BenchBuild, judged: Judgements, atMillis: number): BenchToday => {
  const planting = plantingAt(build, atMillis);
  const { plants, plantsPerSquareMetre } = planting;
  const grown = grownShare(
    Math.max(0, ageDays(planting, atMillis) + judged.aheadDays),
    planting.halfGrownDays,
    planting.growthPerDay * judged.growthFactor,
  );
  const leafSquareMetres = planting.leafSquareMetresMax * grown * judged.leafFactor;
  const rootGrams = planting.rootGramsMax * grown * judged.rootFactor;
  const size = build.channelMetres / CHANNEL_METRES;
  const perPlant = heldMillilitresMax(rootGrams) * judged.capacityFactor;
  const capacityLitres = (Math.max(1, plants) * perPlant) / 1000;
  const cover = canopyCover(leafSquareMetres * plantsPerSquareMetre, judged.extinction);
  const wetRootGrams = plants * rootGrams * judged.rootDryShare * judged.rootSubmergedShare;
  const drainExponent = drainExponentOf(judged.drainExponent);
  return {
    drainCoefficient: drainCoefficientOf(drainExponent, judged.drainCoefficient, size),
    drainExponent,
    wettingLitres: judged.wettingLitres * size,
    refillPerMinute: judged.refillPerMinute * contactOf(planting, rootGrams, judged),
    capacityLitres,
    stressLitres: judged.stressTheta * capacityLitres,
    canopy: canopyResponse({
      plants,
      plantsPerSquareMetre,
      leafSquareMetresPerPlant: leafSquareMetres,
      radiationShare: judged.radiationShare,
      extinction: judged.extinction,
      deficitWatts: judged.deficitWatts,
      openShareInDark: judged.openShareInDark,
      halfOpenWatts: judged.halfOpenWatts,
    }),
    wetCupSquareMetres: planting.startedInPlace ? plants * judged.cupSquareMetres * (1 - cover) : 0,
    airExchangeLitresPerMinute: judged.airExchangeLitresPerMinute * size,
    pipeLitres: judged.pipeLitres * size,
    sunWarming: judged.sunWarming * size * (1 - judged.sunWarmingShaded * cover),
    aerationLitresPerMinute: judged.aerationLitresPerMinute * size,
    mixingPerMinute: judged.mixingPerMinute,
    respirationPerLitre: (judged.respirationMilligrams * wetRootGrams) / (MINUTES_PER_HOUR * capacityLitres),
    oxygenHalf: judged.oxygenHalf,
    floodSaturation: judged.floodSaturation,
    saltUptake: judged.saltUptake,
    saltHalfStrength: judged.saltHalfStrength,
  };
};
