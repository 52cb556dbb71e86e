import type { Farm } from '../../src/farm/farm.ts';
import type { RelayContact } from '../board/relay-contact.ts';
import { standing, type Fault } from '../faults/fault.ts';
import type { InjectorName } from '../faults/injectors.ts';
import type { Plant } from '../plant/plant.ts';
import { nextVisit } from '../run/grower.ts';
import type { Script } from './script.ts';

/** Above what the pump can reach, as the tank float is mounted. */
const FLOAT_ABOVE_DRY_LITRES = 20;
const HOUR = 3_600_000;

/** Which injectors have truly changed something in a run: one that only stands by proves nothing. */
export interface Hits {
  readonly names: ReadonlySet<InjectorName>;
  readonly add: (name: InjectorName) => void;
  /** Called whenever the sensors have been read. */
  readonly look: () => void;
}

export const createHits = (
  script: Script,
  farm: Farm,
  plant: Plant,
  relay: Pick<RelayContact, 'asked' | 'contact'>,
): Hits => {
  const names = new Set<InjectorName>();
  const fullReturn = farm.benches.reduce((sum, bench) => sum + bench.litresPerMinute, 0);

  const visited = ({ fromMillis, untilMillis }: Fault): boolean =>
    nextVisit(farm, fromMillis, { doses: true }) < untilMillis;
  const toppedUp = (fault: Fault): boolean =>
    farm.tank.topUp === 'by-hand'
      ? visited(fault)
      : plant.state.tank.litres < farm.tank.topUp.floatValveAtLitres;

  const changes = (fault: Fault): boolean => {
    const { state } = plant;
    switch (fault.kind) {
      case 'pump-dead':
      case 'pump-unplugged':
      case 'mains-lost':
      case 'filter-clogged':
      case 'filter-clogging':
      case 'inlet-blocked':
      case 'branch-clogging':
        return state.pumpOn;
      case 'relay-open':
        return relay.asked() === 'closed' && relay.contact() === 'open';
      case 'relay-welded':
        return relay.asked() === 'open';
      case 'top-up-stopped':
      case 'top-up-salty':
        return toppedUp(fault);
      case 'probe-drifting':
        return nextVisit(farm, fault.fromMillis + HOUR, { doses: true }) < fault.untilMillis;
      case 'leak':
        return state.tank.litres > 0;
      case 'flow-stuck-low':
        return state.returnLitresPerMinute > 1;
      case 'flow-stuck-high':
        return state.returnLitresPerMinute < fullReturn / 2;
      case 'float-stuck-low':
        return state.tank.litres > farm.tank.dryLitres + FLOAT_ABOVE_DRY_LITRES;
      case 'flow-silent':
      case 'air-silent':
      case 'air-open':
      case 'air-in-sun':
        return true;
    }
  };
  return {
    names,
    add: (name) => names.add(name),
    look: () => {
      for (const fault of script.shed) {
        if (names.has(fault.kind) || !standing([fault], fault.kind, plant.state.atMillis)) continue;
        if (changes(fault)) names.add(fault.kind);
      }
    },
  };
};
