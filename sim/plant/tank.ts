import { afterDecay } from './decay.ts';
import type { TankBuild, TopUp } from './build.ts';
import type { PlantFaults, TankState } from './state.ts';

/** What came back from the benches in one step. */
export interface Returned {
  litres: number;
  salts: number;
  /** Σ litres · °C */
  litresCelsius: number;
}

/** A float valve closes over this much water; it is never a knife edge. */
const VALVE_BAND_LITRES = 5;
/** Water on the floor runs off, and whoever mends a leak takes up the rest: an e-th is left after so long; engineering judgement, no source. */
const FLOOR_DRAINS_MINUTES = 15;

const topUpLitres = (topUp: TopUp, litres: number, minutes: number): number => {
  switch (topUp.kind) {
    case 'by-hand':
      return 0;
    case 'float-valve': {
      const rate = topUp.litresPerMinute / VALVE_BAND_LITRES;
      const below = Math.max(0, topUp.closesAtLitres - litres);
      if (below >= VALVE_BAND_LITRES) return Math.min(topUp.litresPerMinute * minutes, below);
      return below - afterDecay(below, 0, rate, minutes);
    }
  }
};

/** Where the return is blocked the rest of what comes back goes over the ends of the channels to the floor: how much, L. */
const spill = (tank: TankState, returned: Returned, returnShare: number): number => {
  const floorShare = 1 - returnShare;
  const spilt = floorShare * returned.litres;
  tank.saltsLost += floorShare * returned.salts;
  returned.litres *= returnShare;
  returned.salts *= returnShare;
  returned.litresCelsius *= returnShare;
  return spilt;
};

/**
 * Equation 6 for one step: the pump takes, the channels return, the valve tops up, a leak drains, and what
 * stands above the brim is lost. Water and salts are moved, never made. Leaves in `returned` what came as far as the tank.
 */
export const stepTank = (
  tank: TankState,
  build: TankBuild,
  pumpedLitres: number,
  returned: Returned,
  faults: PlantFaults,
  airCelsius: number,
  airExchangeLitresPerMinute: number,
  minutes: number,
): void => {
  const strength = tank.litres > 0 ? tank.salts / tank.litres : 0;
  const toppedUp = faults.topUpShare * topUpLitres(build.topUp, tank.litres, minutes);
  const topUpStrength = build.topUpMillisiemensPerCm + faults.topUpSaltier;
  const taken = tank.litres - pumpedLitres;
  const spilt = faults.returnShare < 1 ? spill(tank, returned, faults.returnShare) : 0;
  const leaked = Math.min(Math.max(0, taken), faults.leakLitresPerMinute * minutes);
  const mixed = taken - leaked + returned.litres + toppedUp;
  const overflowed = Math.max(0, mixed - build.brimLitres);

  // Inflows and the air pull the temperature towards theirs; exact for the water at the middle of the step.
  const exchange = airExchangeLitresPerMinute * minutes + toppedUp;
  const pull = returned.litresCelsius + exchange * airCelsius;
  const weight = returned.litres + exchange;
  const litresMid = Math.max(1, (tank.litres + mixed) / 2);
  const settled = weight > 0 ? pull / weight : tank.celsius;
  tank.celsius = afterDecay(tank.celsius, settled * (weight / litresMid), weight / litresMid, 1);

  const salts = tank.salts - (pumpedLitres + leaked) * strength + returned.salts + toppedUp * topUpStrength;
  const overflowedSalts = mixed > 0 ? (salts * overflowed) / mixed : 0;
  tank.salts = Math.max(0, salts - overflowedSalts);
  tank.saltsLost += leaked * strength + overflowedSalts - toppedUp * topUpStrength;
  tank.litres = mixed - overflowed;
  tank.toppedUpLitres += toppedUp;
  tank.leakedLitres += leaked + spilt;
  if (tank.floorLitres + leaked + spilt > 0) {
    const spilling = (leaked + spilt) / minutes;
    tank.floorLitres = afterDecay(tank.floorLitres, spilling, 1 / FLOOR_DRAINS_MINUTES, minutes);
  }
  tank.overflowedLitres += overflowed;
};
