import type { Farm } from '../../src/farm/farm.ts';
import type { FaultKind } from './fault.ts';

/**
 * What the farm lacks for a fault to do anything; null where it will. A fault that does nothing would pass for one that
 * the farm survives.
 */
export const unfittedFor = ({ evidence, sensors, benches }: Farm, kind: FaultKind): string | null => {
  switch (kind) {
    case 'flow-stuck-low':
    case 'flow-stuck-high':
    case 'flow-silent':
      return evidence.returnFlow === 'none' ? 'return sensor (evidence: returnFlow)' : null;
    case 'air-silent':
    case 'air-open':
    case 'air-in-sun':
      return sensors.airTemperature ? null : 'air thermometer (sensors: airTemperature)';
    case 'float-stuck-low':
      return evidence.tankFloat ? null : 'tank float (evidence: tankFloat)';
    case 'inlet-blocked':
    case 'branch-clogging':
      return benches.some(({ plants }) => plants > 0) ? null : 'plants on any bench (benches: plants)';
    case 'pump-dead':
    case 'pump-unplugged':
    case 'mains-lost':
    case 'relay-open':
    case 'relay-welded':
    case 'filter-clogged':
    case 'filter-clogging':
    case 'top-up-stopped':
    case 'top-up-salty':
    case 'probe-drifting':
    case 'leak':
      return null;
  }
};
