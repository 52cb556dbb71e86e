import type { KeeperPart } from '../../src/farm/table-bytes.ts';
import type { Kept } from '../../src/ports/board.ts';
import type { Sample } from '../../src/ports/sample.ts';
import type { MonotonicMillis } from '../../src/time/instant.ts';
import { standing, type Fault } from '../faults/fault.ts';
import type { Plant, Witness } from '../plant/plant.ts';
import type { Sky } from '../weather/sky.ts';
import { Keeper, type Claimant } from './keeper.ts';
import { createRelayContact } from './relay-contact.ts';
import { createSensors } from './sensors.ts';
import type { ShedBoard, ShedSetup } from './simulated-board.ts';

/** Water counts as back from this share of the full return on: as for the host. */
const WATER_SHARE = 0.25;

/** A board in front of the simulated plant that floods by its own table while no host beats. */
export interface KeepingShed extends ShedBoard {
  readonly owner: () => 'host' | 'board';
  /** A host that owns the pump beats on. */
  readonly beaten: () => void;
  /** From here on no host beats; the last one told this minute of the local day. */
  readonly silent: (minuteOfDay: number | 'unknown') => void;
  readonly claimed: (claimant: Claimant, now: MonotonicMillis) => Kept;
  readonly reset: () => void;
}

export const createKeepingShed = (
  plant: Plant,
  sky: Sky,
  shed: ShedSetup & { readonly parts: readonly KeeperPart[] },
): KeepingShed => {
  const { limits, faults, fitted } = shed;
  const relay = createRelayContact(plant, faults);
  const sensors = createSensors(plant, sky, shed);
  const least = WATER_SHARE * shed.fullReturnLitresPerMinute;
  let samples: Sample[] = [];
  /** Of the run under way: whether water was back already when it began, and is so still; and whether it came. */
  let water: 'runs on' | 'none' | 'back' = 'none';

  const has = (kind: Fault['kind']): boolean => standing(faults, kind, plant.state.atMillis);
  /** As its own sensor has it. */
  const flows = (): boolean => {
    if (has('flow-stuck-low') || has('flow-silent')) return false;
    return has('flow-stuck-high') || plant.state.returnLitresPerMinute >= least;
  };
  const look = (): void => {
    const now = flows();
    if (water === 'runs on' && !now) water = 'none';
    if (water === 'none' && now) water = 'back';
  };
  const keeper = new Keeper({
    parts: shed.parts,
    longestOnSeconds: 60 * limits.longestOnMinutes,
    shortestOffSeconds: limits.shortestOffSeconds,
    startMillis: plant.state.atMillis,
    drive: (pump) => {
      if (pump === 'on') water = flows() ? 'runs on' : 'none';
      relay.ask(pump === 'on' ? 'closed' : 'open');
    },
    judge: () => {
      if (fitted.returnFlow === 'none' || water === 'runs on') return 'unproven';
      return water === 'back' ? 'confirmed' : 'missed';
    },
  });

  return {
    relay,
    owner: () => keeper.owner,
    command: (command) => {
      keeper.command(command);
    },
    beaten: () => {
      keeper.beaten();
    },
    silent: (minuteOfDay) => {
      keeper.silent(minuteOfDay);
    },
    claimed: (claimant, now) => keeper.claimed(claimant, now),
    reset: () => {
      keeper.reset();
    },
    samples: () => {
      const seen = samples;
      samples = [];
      return seen;
    },
    advance: (untilMillis, witness) => {
      const watching: Witness = (state, minutes) => {
        look();
        witness?.(state, minutes);
      };
      while (plant.state.atMillis < untilMillis) {
        relay.advance(Math.min(untilMillis, keeper.nextMillis()), watching);
        keeper.pass(plant.state.atMillis);
      }
    },
    sense: (at) => {
      samples.push(...sensors.sense(at, relay.contact()));
    },
  };
};
