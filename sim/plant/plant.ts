import { openWaterMillimetresPerHour } from '../../src/physics/open-water.ts';
import { saltGramsPerKilogramFrom } from '../../src/physics/oxygen.ts';
import { pressureKilopascals, vapourDeficitKilopascals } from '../../src/physics/vapour.ts';
import { itemAt } from '../../src/units/assertion.ts';
import type { Air } from '../weather/sky.ts';
import { benchToday, plantingAt, type BenchToday } from './bench.ts';
import { benchStepper, type Surroundings } from './bench-step.ts';
import { flowsThrough } from './branches.ts';
import type { PlantBuild } from './build.ts';
import { oxygenLaws, saturatedOxygen, type OxygenLaws } from './oxygen.ts';
import { replanted } from './planting.ts';
import { stepMinutesMax } from './step-length.ts';
import { cloned, UNBROKEN, type PlantState } from './state.ts';
import { stepTank, type Returned } from './tank.ts';

const MILLIS_PER_MINUTE = 60_000;
const MINUTES_PER_HOUR = 60;
/** The canopy is taken afresh this often; it grows a few per cent a day. */
const GROWTH_MILLIS = 6 * 3_600_000;
/** Weather is linear between knots this far apart; no step crosses one. */
const KNOT_MILLIS = 5 * MILLIS_PER_MINUTE;
/** Is told of every step that the plant has made. */
export type Witness = (state: PlantState, minutes: number) => void;

/** The simulated shed's water: benches, tank and pump under one sky. */
export interface Plant {
  readonly build: PlantBuild;
  readonly state: PlantState;
  /** The canopy and capacity of each bench at the moment. */
  readonly today: () => readonly BenchToday[];
  /** Of the air over the benches at the moment. */
  readonly airCelsius: () => number;
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

interface Weather {
  at(epochMillis: number): Air;
}

/** What all plants of one build share. */
interface Shared {
  readonly oxygen: OxygenLaws;
  readonly pressureKilopascals: number;
  /** The moments at which a crop comes onto any bench, in order. */
  readonly plantedMillis: readonly number[];
}

const sharedOf = ({ benches, elevationMetres, usualMillisiemensPerCm, judgements }: PlantBuild): Shared => ({
  oxygen: oxygenLaws(
    pressureKilopascals(elevationMetres),
    saltGramsPerKilogramFrom(1000 * usualMillisiemensPerCm),
    judgements.respirationQ10,
  ),
  pressureKilopascals: pressureKilopascals(elevationMetres),
  plantedMillis: benches
    .flatMap(({ plantings }) => plantings.map(({ fromMillis }) => fromMillis))
    .sort((a, b) => a - b),
});

/** The stretch for which the canopies are taken as they are: from `asOf`, which is also the age that they are taken at. */
const stretchAt = ({ plantedMillis }: Shared, atMillis: number): { asOf: number; until: number } => {
  const slot = Math.floor(atMillis / GROWTH_MILLIS);
  const last = plantedMillis.findLast((at) => at <= atMillis) ?? -Infinity;
  const next = plantedMillis.find((at) => at > atMillis) ?? Infinity;
  return {
    asOf: Math.max(slot * GROWTH_MILLIS, last),
    until: Math.min((slot + 1) * GROWTH_MILLIS, next),
  };
};

const NO_FLOWS: readonly number[] = [];

const sumOf = (values: readonly number[]): number => {
  let sum = 0;
  for (const value of values) sum += value;
  return sum;
};

const plantOf = (build: PlantBuild, shared: Shared, sky: Weather, state: PlantState): Plant => {
  let today: readonly BenchToday[] = [];
  let todayUntil = -Infinity;
  let cupsAreWet = false;
  let flows: readonly number[] | null = null;
  // Filled anew at every step.
  const around: Surroundings = {
    minutes: 0,
    sunWattsPerSquareMetre: 0,
    airCelsius: 0,
    deficitKilopascals: 0,
    openWaterMillimetresPerMinute: 0,
    tankCelsius: 0,
    tankMillisiemensPerCm: 0,
  };
  const returned: Returned = { litres: 0, salts: 0, litresCelsius: 0 };
  const stepBench = benchStepper(shared.oxygen);

  const grow = (): void => {
    if (state.atMillis < todayUntil) return;
    const { asOf, until } = stretchAt(shared, state.atMillis);
    todayUntil = until;
    today = build.benches.map((bench) => benchToday(bench, build.judgements, asOf));
    cupsAreWet = today.some(({ wetCupSquareMetres }) => wetCupSquareMetres > 0);
    state.benches.forEach((bench, place) => {
      const { fromMillis } = plantingAt(itemAt(build.benches, place), asOf);
      replanted(bench, fromMillis, itemAt(today, place).capacityLitres);
    });
  };

  const openFlows = (): readonly number[] =>
    (flows ??= flowsThrough(build, state.faults.branchShares).map(
      (flow) => flow * build.judgements.flowFactor * state.faults.pumpShare,
    ));

  const overWetCups = (air: Air, sunWattsPerSquareMetre: number): number =>
    openWaterMillimetresPerHour({
      ...air,
      sunWattsPerSquareMetre,
      pressureKilopascals: shared.pressureKilopascals,
    });

  /** What the tank can give: nothing once the pump draws air. */
  const givenShare = (wantedLitresPerMinute: number, minutes: number): number => {
    const wanted = wantedLitresPerMinute * minutes;
    if (wanted <= 0) return 0;
    return Math.min(1, Math.max(0, state.tank.litres - build.tank.dryLitres) / wanted);
  };

  const step = (minutes: number): void => {
    const { tank } = state;
    const air = sky.at(state.atMillis + (minutes * MILLIS_PER_MINUTE) / 2);
    const sun = air.sunWattsPerSquareMetre * build.sunShare;
    around.minutes = minutes;
    around.sunWattsPerSquareMetre = sun;
    around.airCelsius = air.airCelsius;
    around.deficitKilopascals = vapourDeficitKilopascals(air.airCelsius, air.vapourKilopascals);
    around.openWaterMillimetresPerMinute = cupsAreWet ? overWetCups(air, sun) / MINUTES_PER_HOUR : 0;
    around.tankCelsius = tank.celsius;
    around.tankMillisiemensPerCm = tank.litres > 0 ? tank.salts / tank.litres : 0;
    returned.litres = 0;
    returned.salts = 0;
    returned.litresCelsius = 0;

    const asked = state.pumpOn ? openFlows() : NO_FLOWS;
    const total = sumOf(asked);
    const share = givenShare(total, minutes);
    for (let place = 0; place < today.length; place += 1) {
      const inflow = (asked[place] ?? 0) * share;
      stepBench(itemAt(state.benches, place), itemAt(today, place), around, inflow, returned);
    }

    const pumped = total * share * minutes;
    const { tankExchangeLitresPerMinute } = build.judgements;
    stepTank(
      tank,
      build.tank,
      pumped,
      returned,
      state.faults,
      air.airCelsius,
      tankExchangeLitresPerMinute,
      minutes,
    );
    state.returnLitresPerMinute = returned.litres / minutes;
    state.pumpedLitresPerMinute = pumped / minutes;
    state.minutesSinceEvent += minutes;
  };

  /** As graded, in equal steps up to the next knot: a sliver before it would cost as much as a whole step. */
  const nextStepEnd = (): number => {
    const longest = stepMinutesMax(state.pumpOn ? 'running' : 'resting', state.minutesSinceEvent);
    const knot = (Math.floor(state.atMillis / KNOT_MILLIS) + 1) * KNOT_MILLIS;
    const edge = Math.min(knot, todayUntil);
    const steps = Math.ceil((edge - state.atMillis) / (longest * MILLIS_PER_MINUTE));
    return steps <= 1 ? edge : state.atMillis + (edge - state.atMillis) / steps;
  };

  const advance = (untilMillis: number, witness?: Witness): void => {
    while (state.atMillis < untilMillis) {
      grow();
      const end = Math.min(untilMillis, nextStepEnd());
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
    airCelsius: () => sky.at(state.atMillis).airCelsius,
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
    forked: () => plantOf(build, shared, sky, cloned(state)),
  };
};

export const createPlant = (build: PlantBuild, sky: Weather, state: PlantState): Plant =>
  plantOf(build, sharedOf(build), sky, state);

/** A plant at rest: every bench full of held water and drained, all water at one temperature and full of air. */
export const restedState = (
  build: PlantBuild,
  atMillis: number,
  start: { readonly tankLitres: number; readonly celsius: number; readonly millisiemensPerCm: number },
): PlantState => {
  const shared = sharedOf(build);
  const { asOf } = stretchAt(shared, atMillis);
  return {
    atMillis,
    minutesSinceEvent: 60,
    pumpOn: false,
    benches: build.benches.map((bench) => {
      const { capacityLitres } = benchToday(bench, build.judgements, asOf);
      return {
        inflowLitresPerMinute: 0,
        drainableLitres: 0,
        heldLitres: capacityLitres,
        waterCelsius: start.celsius,
        oxygenMilligramsPerLitre: saturatedOxygen(shared.oxygen, start.celsius),
        salts: capacityLitres * start.millisiemensPerCm,
        drunkLitres: 0,
        evaporatedLitres: 0,
        plantedMillis: plantingAt(bench, asOf).fromMillis,
        harvestedLitres: 0,
        harvestedSalts: 0,
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
      floorLitres: 0,
      saltsLost: 0,
    },
    faults: { ...UNBROKEN, branchShares: build.benches.map(() => 1) },
    returnLitresPerMinute: 0,
    pumpedLitresPerMinute: 0,
  };
};
