import { WAYS, type Way } from './failing.ts';
import { FAULTS, type FaultKind } from './fault.ts';

/** What the campaign can do to a host and its line, beside what a fault script can do to the shed. */
export const HOST_FAULTS = {
  'link-lost': 'nobody hears the board for a while; what is asked of it meanwhile is lost',
  'link-flapping': 'the line goes and comes back every few seconds',
  'board-reset': 'the board starts anew: its relay is let go, the line is gone for two seconds',
  'host-killed': 'the power of the host goes at any instant; it comes back later and begins anew',
  'host-frozen': 'the host does nothing for a while, and knows nothing of it',
  'late-ticks': 'each look of the host comes some seconds late',
  'clock-ahead': 'the wall clock jumps ahead by hours, and is set right later',
  'clock-back': 'the wall clock jumps back by hours, and is set right later',
  'clock-years': 'the wall clock is wrong by years for a while',
  'clock-unset': 'the wall clock stands at 1970 for a while',
  'samples-lost': 'half of what the sensors say is lost on the way',
  'samples-repeated': 'old words of the sensors come a second time, a minute later',
  hold: 'somebody holds the pump for half an hour',
  'odd-orders':
    'orders that make no sense: holds of no length, alarms that do not stand, releases of nothing',
  'flood-now': 'somebody asks for a flood again and again',
} as const;

export type HostFaultKind = keyof typeof HOST_FAULTS;

/** One sensor that fails in one way; which sensor it is the seed draws. */
export type SensorFaultKind = `sensor-${Way}`;

export type InjectorName = FaultKind | HostFaultKind | SensorFaultKind;

const names = <Name extends string>(of: Readonly<Record<Name, string>>): readonly Name[] =>
  Object.keys(of) as Name[];

export const FAULT_KINDS: readonly FaultKind[] = names(FAULTS);
export const HOST_FAULT_KINDS: readonly HostFaultKind[] = names(HOST_FAULTS);
export const SENSOR_FAULT_KINDS: readonly SensorFaultKind[] = WAYS.map(
  (way): SensorFaultKind => `sensor-${way}`,
);

/** All that the campaign breaks. */
export const INJECTORS: readonly InjectorName[] = [
  ...FAULT_KINDS,
  ...HOST_FAULT_KINDS,
  ...SENSOR_FAULT_KINDS,
];
