import { canopyCover, grownShare } from '../../src/physics/growth.ts';
import { heldMillilitresMax } from '../../src/physics/holding.ts';
import { canopyResponse, type CanopyResponse } from '../../src/physics/uptake.ts';
import type { BenchBuild } from './build.ts';
import { FIXED, type Judgements } from './judgements.ts';

const MILLIS_PER_DAY = 86_400_000;

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
  readonly airExchangeLitresPerMinute: number;
  readonly pipeLitres: number;
  /** K·L/min per W/m². */
  readonly sunWarming: number;
}

export const ageDays = (build: BenchBuild, atMillis: number): number =>
  Math.max(0, (atMillis - build.sownMillis) / MILLIS_PER_DAY);

export const benchToday = (build: BenchBuild, judged: Judgements, atMillis: number): BenchToday => {
  const grown = grownShare(ageDays(build, atMillis), build.halfGrownDays, build.growthPerDay);
  const leafSquareMetres = build.leafSquareMetresMax * grown;
  const size = build.channelMetres / FIXED.channelMetres;
  const perPlant = heldMillilitresMax(build.rootGramsMax * grown) * judged.capacityFactor;
  const capacityLitres = (Math.max(1, build.plants) * perPlant) / 1000;
  const cover = canopyCover(leafSquareMetres * build.plantsPerSquareMetre, FIXED.extinction);
  return {
    drainCoefficient: judged.drainCoefficient / Math.sqrt(size),
    wettingLitres: judged.wettingLitres * size,
    refillPerMinute: judged.refillPerMinute,
    capacityLitres,
    stressLitres: judged.stressTheta * capacityLitres,
    canopy: canopyResponse({
      plants: build.plants,
      plantsPerSquareMetre: build.plantsPerSquareMetre,
      leafSquareMetresPerPlant: leafSquareMetres,
      radiationShare: judged.radiationShare,
      extinction: FIXED.extinction,
      deficitWatts: judged.deficitWatts,
    }),
    airExchangeLitresPerMinute: judged.airExchangeLitresPerMinute * size,
    pipeLitres: FIXED.pipeLitres * size,
    sunWarming: FIXED.sunWarming * size * (1 - FIXED.sunWarmingShaded * cover),
  };
};
