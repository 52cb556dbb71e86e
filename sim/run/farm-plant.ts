import type { Farm } from '../../src/farm/farm.ts';
import { standingsOf } from '../../src/farm/standing.ts';
import { fittedBranches } from '../../src/physics/pump-split.ts';
import { localClockInstant, localDayOn } from '../../src/time/local-day.ts';
import { assert, itemAt } from '../../src/units/assertion.ts';
import type { PlantBuild } from '../plant/build.ts';
import type { Judgements } from '../plant/judgements.ts';

const NOON = 12 * 60;

/** The farm file as the simulated world sees it: facts for the plant, judgements for what nobody measured. */
export const plantOf = (farm: Farm, judgements: Judgements): PlantBuild => {
  const fit = fittedBranches({
    headMetresMax: farm.pump.headMetresMax,
    litresPerMinuteMax: farm.pump.litresPerMinuteMax,
    liftMetres: farm.benches.map((bench) => bench.liftMetres),
    litresPerMinute: farm.benches.map((bench) => bench.litresPerMinute),
  });
  assert(fit.kind === 'fitted', 'a farm that passed its checks has a pump that can deliver its flows');
  const { topUp } = farm.tank;
  return {
    benches: farm.benches.map((bench, place) => ({
      channelMetres: bench.channels * bench.lengthMetres,
      liftMetres: bench.liftMetres,
      branchResistance: itemAt(fit.branches, place).resistance,
      plantings: standingsOf(bench).map(({ on, traits, plants, sown, startedInPlace }) => ({
        ...traits,
        fromMillis: on === null ? -Infinity : localDayOn(on, farm.place.timeZone).start,
        plants,
        sownMillis: localClockInstant(localDayOn(sown, farm.place.timeZone), NOON),
        startedInPlace,
      })),
    })),
    tank: {
      brimLitres: farm.tank.litres,
      dryLitres: farm.tank.dryLitres,
      topUp:
        topUp === 'by-hand'
          ? { kind: 'by-hand' }
          : {
              kind: 'float-valve',
              closesAtLitres: topUp.floatValveAtLitres,
              litresPerMinute: topUp.litresPerMinute,
            },
      topUpMillisiemensPerCm: farm.tank.topUpMillisiemensPerCm,
    },
    pump: {
      headMetresMax: farm.pump.headMetresMax,
      curveCoefficient: fit.curveCoefficient,
    },
    sunShare: farm.place.sunShare,
    elevationMetres: farm.place.elevationMetres,
    usualMillisiemensPerCm: farm.tank.strengthMillisiemensPerCm,
    judgements,
  };
};
