import { splitFlows } from '../../src/physics/pump-split.ts';
import { uptakeLitresPerMinute } from '../../src/physics/uptake.ts';
import { vapourDeficitKilopascals } from '../../src/physics/vapour.ts';
import type { Air } from '../weather/sky.ts';
import { benchToday, type BenchToday } from './bench.ts';
import type { PlantBuild } from './build.ts';
import { benchCelsiusAfter } from './heat.ts';
import { saltStep } from './salts.ts';
import { cloned, type PlantState } from './state.ts';
import { stepTank, type Returned } from './tank.ts';
import { waterStep } from './water.ts';

const MILLIS_PER_MINUTE = 60_000;
/** The canopy is taken afresh this often; it grows a few per cent a day. */
const GROWTH_MILLIS = 6 * 3_600_000;
/** Weather is linear between knots this far apart; no step crosses one. */
const KNOT_MILLIS = 5 * MILLIS_PER_MINUTE;
/** Steps grow with the time since the pump last turned on or off. */
const STEP_MINUTES = { least: 0.05, growth: 0.2, most: 1 } as const;

/** Is told of every step that the plant has made. */
export type Witness = (state: PlantState, minutes: number) => void;

/** The simulated shed's water: benches, tank and pump under one sky. */
export interface Plant {
  readonly build: PlantBuild;
  readonly state: PlantState;
  /** The canopy and capacity of each bench at the moment. */
  today(): readonly BenchToday[];
  setPump(on: boolean): void;
  /** Call after changing `state.faults`. */
  faultsChanged(): void;
  advance(untilMillis: number, witness?: Witness): void;
  /** A second plant that goes on from here by itself. */
  forked(): Plant;
}

/** θ of each bench. */
export const heldShares = (plant: Plant): readonly number[] =>
  plant.today().map((today, place) => (plant.state.benches[place]?.heldLitres ?? 0) / today.capacityLitres);

export const createPlant = (
  build: PlantBuild,
  sky: { at(epochMillis: number): Air },
  state: PlantState,
): Plant => {
  let growthSlot = -1;
  let today: readonly BenchToday[] = [];
  let flows: readonly number[] | null = null;

  const grow = (): void => {
    const slot = Math.floor(state.atMillis / GROWTH_MILLIS);
    if (slot === growthSlot) return;
    growthSlot = slot;
    today = build.benches.map((bench) => benchToday(bench, build.judgements, slot * GROWTH_MILLIS));
  };

  const openFlows = (): readonly number[] => {
    flows ??= splitFlows({
      headMetresMax: build.pump.headMetresMax,
      curveCoefficient: build.pump.curveCoefficient,
      branches: build.benches.map(({ liftMetres, branchResistance }) => ({
        liftMetres,
        resistance: branchResistance,
      })),
    }).map(
      (flow, place) =>
        flow * build.judgements.flowFactor * state.faults.pumpShare * (state.faults.branchShares[place] ?? 1),
    );
    return flows;
  };

  /** What the tank can give: nothing once the pump draws air. */
  const givenShare = (wantedLitresPerMinute: number, minutes: number): number => {
    const wanted = wantedLitresPerMinute * minutes;
    if (wanted <= 0) return 0;
    return Math.min(1, Math.max(0, state.tank.litres - build.tank.dryLitres) / wanted);
  };

  const step = (minutes: number): void => {
    const air = sky.at(state.atMillis + (minutes * MILLIS_PER_MINUTE) / 2);
    const sun = air.sunWattsPerSquareMetre * build.sunShare;
    const deficit = vapourDeficitKilopascals(air.airCelsius, air.vapourKilopascals);
    const asked = state.pumpOn ? openFlows() : [];
    const total = asked.reduce((sum, flow) => sum + flow, 0);
    const share = givenShare(total, minutes);
    const { tank } = state;
    const strength = tank.litres > 0 ? tank.salts / tank.litres : 0;
    const returned: Returned = { litres: 0, salts: 0, litresCelsius: 0 };

    state.benches.forEach((bench, place) => {
      const now = today[place];
      if (now === undefined) return;
      const inflow = (asked[place] ?? 0) * share;
      const before = { litres: bench.drainableLitres + bench.heldLitres };
      const fullUptake = uptakeLitresPerMinute(now.canopy, sun, deficit);
      const water = waterStep(now, bench.drainableLitres, bench.heldLitres, inflow, fullUptake, minutes);
      const salts = saltStep(bench.salts, before, water, inflow * strength, minutes);
      const litresMid = (before.litres + water.drainableLitres + water.heldLitres) / 2;
      const celsius = benchCelsiusAfter(
        bench.waterCelsius,
        now,
        litresMid,
        inflow,
        tank.celsius,
        air.airCelsius,
        sun,
        minutes,
      );
      returned.litres += water.drainedLitres;
      returned.salts += salts.returned;
      returned.litresCelsius += water.drainedLitres * ((bench.waterCelsius + celsius) / 2);
      bench.inflowLitresPerMinute = inflow;
      bench.drainableLitres = water.drainableLitres;
      bench.heldLitres = water.heldLitres;
      bench.drunkLitres += water.drunkLitres;
      bench.salts = salts.salts;
      bench.saltsTakenUp += salts.takenUp;
      bench.waterCelsius = celsius;
    });

    const pumped = total * share * minutes;
    stepTank(tank, build.tank, pumped, returned, state.faults.leakLitresPerMinute, air.airCelsius, minutes);
    state.returnLitresPerMinute = returned.litres / minutes;
    state.pumpedLitresPerMinute = pumped / minutes;
    state.minutesSinceEvent += minutes;
  };

  const advance = (untilMillis: number, witness?: Witness): void => {
    while (state.atMillis < untilMillis) {
      grow();
      const graded = Math.min(
        STEP_MINUTES.most,
        STEP_MINUTES.least + STEP_MINUTES.growth * state.minutesSinceEvent,
      );
      const knot = (Math.floor(state.atMillis / KNOT_MILLIS) + 1) * KNOT_MILLIS;
      const end = Math.min(untilMillis, knot, state.atMillis + graded * MILLIS_PER_MINUTE);
      const minutes = (end - state.atMillis) / MILLIS_PER_MINUTE;
      step(minutes);
      state.atMillis = end;
      witness?.(state, minutes);
    }
  };

  grow();
  return {
    build,
    state,
    today: () => today,
    setPump(on) {
      if (on === state.pumpOn) return;
      state.pumpOn = on;
      state.minutesSinceEvent = 0;
    },
    faultsChanged() {
      flows = null;
      state.minutesSinceEvent = 0;
    },
    advance,
    forked: () => createPlant(build, sky, cloned(state)),
  };
};

/** A plant at rest: every bench full of held water and drained, all water at one temperature. */
export const restedState = (
  build: PlantBuild,
  atMillis: number,
  start: { readonly tankLitres: number; readonly celsius: number; readonly millisiemensPerCm: number },
): PlantState => ({
  atMillis,
  minutesSinceEvent: 60,
  pumpOn: false,
  benches: build.benches.map((bench) => {
    const { capacityLitres } = benchToday(
      bench,
      build.judgements,
      Math.floor(atMillis / GROWTH_MILLIS) * GROWTH_MILLIS,
    );
    return {
      inflowLitresPerMinute: 0,
      drainableLitres: 0,
      heldLitres: capacityLitres,
      waterCelsius: start.celsius,
      salts: capacityLitres * start.millisiemensPerCm,
      drunkLitres: 0,
      saltsTakenUp: 0,
    };
  }),
  tank: {
    litres: start.tankLitres,
    celsius: start.celsius,
    salts: start.tankLitres * start.millisiemensPerCm,
    toppedUpLitres: 0,
    overflowedLitres: 0,
    leakedLitres: 0,
    saltsLost: 0,
  },
  faults: { pumpShare: 1, branchShares: build.benches.map(() => 1), leakLitresPerMinute: 0 },
  returnLitresPerMinute: 0,
  pumpedLitresPerMinute: 0,
});
