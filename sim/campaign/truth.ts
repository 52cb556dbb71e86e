import type { Farm } from '../../src/farm/farm.ts';
import type { Truth } from '../oracle/record.ts';
import type { Plant, Witness } from '../plant/plant.ts';
import { standing } from '../faults/fault.ts';
import type { BoardKind } from './met-board.ts';
import { standingHost, type Script } from './script.ts';

/** What lasts the pump for less than this reaches no far end of a channel: whoever gives it waters no bench, */
const TANK_TO_SPARE_MINUTES = 3;
/** and less than this above what the pump can reach is no water at all. */
const DROP_LITRES = 10;
/** Through a filter that lets less than this through no bench is watered in time. */
const FLOW_SHARE_LEAST = 0.25;
/** What keeps host and board both from giving water, and what keeps the host alone. */
const NOBODY_CAN = ['board-reset', 'hold'] as const;
const HOST_CANNOT = ['link-lost', 'link-flapping', 'host-killed', 'host-frozen'] as const;

export interface TruthLog {
  readonly witness: Witness;
  readonly truth: () => Truth;
}

/** Writes down the true water and air after each step of the plant, and whether there was a way to give some. */
export const createTruthLog = (
  plant: Plant,
  farm: Farm,
  script: Script,
  board: BoardKind = 'stock',
): TruthLog => {
  const benches = plant.build.benches.length;
  const flow = farm.benches.reduce((sum, { litresPerMinute }) => sum + litresPerMinute, 0);
  const atMillis: number[] = [];
  const held = Array.from({ length: benches }, (): number[] => []);
  const inflow = Array.from({ length: benches }, (): number[] => []);
  const way = Array.from({ length: benches }, (): boolean[] => []);
  const drop = Array.from({ length: benches }, (): boolean[] => []);
  const returning: number[] = [];
  const tankLitres: number[] = [];
  const airCelsius: number[] = [];
  const runs: { fromMillis: number; untilMillis: number }[] = [];
  let on = false;

  const hindrances = board === 'keeps' ? NOBODY_CAN : [...NOBODY_CAN, ...HOST_CANNOT];
  const somebodyCan = (at: number): boolean =>
    hindrances.every((kind) => standingHost(script, kind, at) === null);
  return {
    witness: (state, minutes) => {
      const before = state.atMillis - minutes * 60_000;
      atMillis.push(state.atMillis);
      returning.push(state.returnLitresPerMinute);
      tankLitres.push(state.tank.litres);
      airCelsius.push(plant.airCelsius());
      const { pumpShare, branchShares } = state.faults;
      const pumps =
        pumpShare >= FLOW_SHARE_LEAST &&
        (!standing(script.shed, 'relay-open', before) || standing(script.shed, 'relay-welded', before)) &&
        (somebodyCan(before) || standing(script.shed, 'relay-welded', before));
      const toSpare = state.tank.litres - farm.tank.dryLitres;
      const today = plant.today();
      for (let place = 0; place < benches; place += 1) {
        const bench = state.benches[place];
        held[place]?.push((bench?.heldLitres ?? 0) / (today[place]?.capacityLitres ?? 1));
        inflow[place]?.push(bench?.inflowLitresPerMinute ?? 0);
        const runs = pumps && (branchShares[place] ?? 1) > 0;
        way[place]?.push(runs && toSpare > TANK_TO_SPARE_MINUTES * flow);
        drop[place]?.push(runs && toSpare > DROP_LITRES);
      }
      if (state.pumpOn && !on) runs.push({ fromMillis: before, untilMillis: state.atMillis });
      const run = runs.at(-1);
      if (state.pumpOn && run !== undefined) run.untilMillis = state.atMillis;
      on = state.pumpOn;
    },
    truth: () => ({ atMillis, held, inflow, returning, tankLitres, airCelsius, way, drop, runs }),
  };
};
