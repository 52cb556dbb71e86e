import { uptakeLitresPerMinute } from '../../src/physics/uptake.ts';
import type { BenchToday } from './bench.ts';
import { benchCelsiusAfter } from './heat.ts';
import { oxygenAfter, type OxygenLaws } from './oxygen.ts';
import { noSaltStep, saltStep } from './salts.ts';
import type { BenchState } from './state.ts';
import type { Returned } from './tank.ts';
import { noWaterStep, waterStep } from './water.ts';

/** What all benches meet alike in one step. */
export interface Surroundings {
  minutes: number;
  /** Through the net or the glass. */
  sunWattsPerSquareMetre: number;
  airCelsius: number;
  deficitKilopascals: number;
  /** Water that a wet cup in the open gives to the air. */
  openWaterMillimetresPerMinute: number;
  /** What the pump brings. */
  tankCelsius: number;
  tankMillisiemensPerCm: number;
}

export type BenchStepper = (
  bench: BenchState,
  today: BenchToday,
  around: Readonly<Surroundings>,
  inflowPerMinute: number,
  returned: Returned,
) => void;

/**
 * Moves one bench on by equations 1–5 and 7 and adds what flows back to `returned`. The stepper keeps the objects between
 * the equations for itself and fills them again at every step: new ones cost more than the arithmetic.
 */
export const benchStepper = (laws: OxygenLaws): BenchStepper => {
  const before = { drainableLitres: 0, heldLitres: 0, litres: 0 };
  const water = noWaterStep();
  const salts = noSaltStep();
  return (bench, today, around, inflowPerMinute, returned) => {
    const { minutes } = around;
    before.drainableLitres = bench.drainableLitres;
    before.heldLitres = bench.heldLitres;
    before.litres = bench.drainableLitres + bench.heldLitres;
    const uptake = uptakeLitresPerMinute(
      today.canopy,
      around.sunWattsPerSquareMetre,
      around.deficitKilopascals,
    );
    const loss = uptake + around.openWaterMillimetresPerMinute * today.wetCupSquareMetres;
    waterStep(today, bench.drainableLitres, bench.heldLitres, inflowPerMinute, loss, minutes, water);
    const drunk = loss > 0 ? (water.lostLitres * uptake) / loss : 0;
    saltStep(
      bench.salts,
      today,
      before,
      water,
      drunk,
      inflowPerMinute * around.tankMillisiemensPerCm,
      minutes,
      salts,
    );
    const celsius = benchCelsiusAfter(
      bench.waterCelsius,
      today,
      (before.litres + water.drainableLitres + water.heldLitres) / 2,
      inflowPerMinute,
      around.tankCelsius,
      around.airCelsius,
      around.sunWattsPerSquareMetre,
      minutes,
    );
    const celsiusMid = (bench.waterCelsius + celsius) / 2;
    returned.litres += water.drainedLitres;
    returned.salts += salts.returned;
    returned.litresCelsius += water.drainedLitres * celsiusMid;
    bench.oxygenMilligramsPerLitre = oxygenAfter(
      bench.oxygenMilligramsPerLitre,
      today,
      before,
      water,
      celsiusMid,
      laws,
      minutes,
    );
    bench.inflowLitresPerMinute = inflowPerMinute;
    bench.drainableLitres = water.drainableLitres;
    bench.heldLitres = water.heldLitres;
    bench.drunkLitres += drunk;
    bench.evaporatedLitres += water.lostLitres - drunk;
    bench.salts = salts.salts;
    bench.saltsTakenUp += salts.takenUp;
    bench.waterCelsius = celsius;
  };
};
