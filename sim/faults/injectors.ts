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

/** What the campaign can do to what stands beside control: the disk of the host and its ways to people. */
export const BESIDE_FAULTS = {
  'disk-slow': 'the disk takes 5 s for each write',
  'disk-full': 'another program has filled the disk; what was laid in for alarms is left',
  'disk-failing': 'no write succeeds: the medium has an error, or is read-only',
  'channel-refusing': 'one way to people refuses every try',
  'channel-hung': 'one way to people never answers',
  'network-gone': 'every way to people but the modem is gone',
} as const;

export type BesideFaultKind = keyof typeof BESIDE_FAULTS;

/** One sensor that fails in one way; which sensor it is the seed draws. */
export type SensorFaultKind = `sensor-${Way}`;

export type InjectorName = FaultKind | HostFaultKind | SensorFaultKind | BesideFaultKind;

const names = <Name extends string>(of: Readonly<Record<Name, string>>): readonly Name[] =>
  Object.keys(of) as Name[];

export const FAULT_KINDS: readonly FaultKind[] = names(FAULTS);
export const HOST_FAULT_KINDS: readonly HostFaultKind[] = names(HOST_FAULTS);
export const SENSOR_FAULT_KINDS: readonly SensorFaultKind[] = WAYS.map(
  (way): SensorFaultKind => `sensor-${way}`,
);
export const BESIDE_FAULT_KINDS: readonly BesideFaultKind[] = names(BESIDE_FAULTS);

/** All that the campaign breaks. */
export const INJECTORS: readonly InjectorName[] = [
  ...FAULT_KINDS,
  ...HOST_FAULT_KINDS,
  ...SENSOR_FAULT_KINDS,
  ...BESIDE_FAULT_KINDS,
];
