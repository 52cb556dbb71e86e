import type { Farm } from '../../src/farm/farm.ts';
import { hasPlants } from '../../src/farm/standing.ts';
import { itemAt } from '../../src/units/assertion.ts';
import type { Judgements } from '../plant/judgements.ts';
import { heldShares, type Plant, type Witness } from '../plant/plant.ts';
import { nextVisit, visit } from '../run/grower.ts';
import { openWater } from '../run/shed.ts';
import type { PumpRun } from '../run/tally.ts';
import { traceOf, type Moment } from '../run/trace.ts';
import { worstMiss } from '../run/what-if.ts';
import type { Sky } from '../weather/sky.ts';
import { answersFor, type FloodTimes } from './answered.ts';

const MINUTE_MILLIS = 60_000;

/** The stretch over which plans are judged, after a while to settle in and with a while to run out. */
export interface Stretch {
  readonly startMillis: number;
  readonly minutes: number;
  /** What counts, minutes since the start. */
  readonly fromMinute: number;
  readonly untilMinute: number;
}

export interface Trial {
  readonly farm: Farm;
  readonly sky: Sky;
  readonly stretch: Stretch;
  /** Of its flow, what the pump still gives. */
  readonly pumpShare: number;
  /** 1 in each minute of the day parts that are looked at by themselves. */
  readonly within: Uint8Array;
}

/** What a plan does to the planted benches under one draw: the worst of them in each figure, in the day parts looked at. */
export interface PlanTrial {
  /** Lowest share of held water, up to the first flood after them. */
  lowestTheta: number;
  /** The same with the worst single flood missed for which they answer; Infinity where there is none. */
  missedTheta: number;
  /** Lowest oxygen about the roots and warmest water in the channels, mg/L and °C. */
  lowestOxygen: number;
  warmestCelsius: number;
  /** Lowest share of held water with the worst flood of the rest of the day missed; Infinity where there is none. */
  elsewhereTheta: number;
  readonly moments: readonly Moment[];
}

/** A missed bench may fall by so much below its guess: the next flood takes some minutes to wet it. */
const GUESS_ROOM = 0.03;

type Worst = Omit<PlanTrial, 'moments'>;

const worstOf = (trial: Trial, plant: Plant, found: Worst): Witness => {
  const { startMillis, fromMinute, untilMinute } = trial.stretch;
  const planted = trial.farm.benches.map(hasPlants);
  return ({ atMillis, benches }) => {
    const minute = (atMillis - startMillis) / MINUTE_MILLIS;
    if (minute <= fromMinute || minute > untilMinute || trial.within[Math.ceil(minute) - 1] !== 1) return;
    const today = plant.today();
    for (let place = 0; place < benches.length; place += 1) {
      const bench = benches[place];
      if (bench === undefined || planted[place] !== true) continue;
      const theta = bench.heldLitres / (today[place]?.capacityLitres ?? NaN);
      if (theta < found.lowestTheta) found.lowestTheta = theta;
      if (bench.oxygenMilligramsPerLitre < found.lowestOxygen)
        found.lowestOxygen = bench.oxygenMilligramsPerLitre;
      if (bench.waterCelsius > found.warmestCelsius) found.warmestCelsius = bench.waterCelsius;
    }
  };
};

interface Missing {
  readonly farm: Farm;
  /** The plant just before each flood that counts. */
  readonly starts: readonly Plant[];
  readonly runs: readonly PumpRun[];
}

/**
 * The lowest held water of the planted benches with each flood asked for missed by itself. A bench that is not wetted keeps at least what it had less
 * what it lost when it was: so only misses of which that is lower than the worst found so far are run through, the lowest first.
 */
const worstMissed = ({ farm, starts, runs }: Missing, isAsked: (place: number) => boolean): number => {
  const isPlanted = (bench: number): boolean => hasPlants(itemAt(farm.benches, bench));
  const guess = (before: Plant, place: number): number => {
    // Of the last flood nobody has seen the next start.
    const next = starts[place + 1];
    if (next === undefined) return -Infinity;
    const today = next.today();
    const left = before.state.benches.map(
      ({ heldLitres, drunkLitres, evaporatedLitres, plantedMillis }, bench) => {
        const then = next.state.benches[bench];
        // Of plants that went in between this tells nothing.
        if (then?.plantedMillis !== plantedMillis) return -Infinity;
        const lost = then.drunkLitres - drunkLitres + then.evaporatedLitres - evaporatedLitres;
        return (heldLitres - lost) / (today[bench]?.capacityLitres ?? NaN);
      },
    );
    return Math.min(...left.filter((_, bench) => isPlanted(bench)));
  };
  const asked = starts
    .map((before, place) => ({ before, place, least: guess(before, place) }))
    .filter(({ place }) => isAsked(place))
    .toSorted((a, b) => a.least - b.least);
  let worst = Infinity;
  for (const { before, least } of asked) {
    if (least > worst + GUESS_ROOM) break;
    for (const [bench, { theta }] of worstMiss([before], runs).entries())
      if (isPlanted(bench)) worst = Math.min(worst, theta);
  }
  return worst;
};

/**
 * Runs a plan's floods through the whole plant, each at its minute and without help of the controller, which would only add
 * water. The worst single miss is found by forks.
 */
export const planRun = (
  trial: Trial,
  judgements: Judgements,
  floods: FloodTimes,
  { traced }: { readonly traced: boolean } = { traced: false },
): PlanTrial => {
  const { farm, sky, stretch } = trial;
  const { startMillis } = stretch;
  const at = (minute: number): number => startMillis + minute * MINUTE_MILLIS;
  const plant = openWater({ farm, sky, judgements, startMillis });
  plant.state.faults.pumpShare = trial.pumpShare;
  plant.faultsChanged();
  const found = {
    lowestTheta: Infinity,
    missedTheta: Infinity,
    lowestOxygen: Infinity,
    warmestCelsius: -Infinity,
    elsewhereTheta: Infinity,
  };
  const worst = worstOf(trial, plant, found);
  const trace = traceOf(plant, at(stretch.fromMinute), at(stretch.untilMinute));
  const witness: Witness = (state, minutes) => {
    worst(state, minutes);
    if (traced) trace.witness(state, minutes);
  };
  let visitAt = nextVisit(farm, startMillis, { doses: false });
  const advance = (millis: number): void => {
    while (visitAt <= millis) {
      plant.advance(visitAt, witness);
      const { airCelsius } = sky.at(visitAt);
      visit(farm, plant, [], { doses: false, airCelsius });
      visitAt = nextVisit(farm, visitAt, { doses: false });
    }
    plant.advance(millis, witness);
  };
  const starts: Plant[] = [];
  const isAnswered: boolean[] = [];
  const isPlanted = (bench: number): boolean => hasPlants(itemAt(farm.benches, bench));
  const runs = Array.from(floods.begins, (begin, place) => ({
    fromMillis: at(begin),
    untilMillis: at(floods.ends[place] ?? NaN),
  }));
  for (const [place, { fromMillis, untilMillis }] of runs.entries()) {
    if (fromMillis >= at(stretch.untilMinute)) break;
    advance(fromMillis);
    if (fromMillis >= at(stretch.fromMinute)) {
      starts.push(plant.forked());
      const isOurs = answersFor(floods, place, trial.within);
      isAnswered.push(isOurs);
      if (isOurs)
        found.lowestTheta = Math.min(
          found.lowestTheta,
          ...heldShares(plant).filter((_, bench) => isPlanted(bench)),
        );
    }
    plant.setPump(true);
    advance(untilMillis);
    plant.setPump(false);
  }
  advance(Math.max(plant.state.atMillis, at(stretch.untilMinute)));
  const missing = { farm, starts, runs };
  found.missedTheta = worstMissed(missing, (place) => isAnswered[place] === true);
  found.elsewhereTheta = worstMissed(missing, (place) => isAnswered[place] === false);
  return { ...found, moments: trace.moments };
};
