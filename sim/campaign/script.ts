import type { Channel } from '../../src/ports/sample.ts';
import type { Way } from '../faults/failing.ts';
import type { Fault } from '../faults/fault.ts';
import type { BesideFaultKind, HostFaultKind, InjectorName } from '../faults/injectors.ts';

/** From one moment until another, milliseconds since 1970. */
export interface Span {
  readonly fromMillis: number;
  readonly untilMillis: number;
}

/** A fault of the host or of its line. */
export interface HostFault extends Span {
  readonly kind: HostFaultKind;
  /** By how much, where it is about an amount: hours that a clock jumps, seconds that a tick is late. */
  readonly amount: number;
}

/** One sensor that fails in one way. */
export interface SensorFault extends Span {
  readonly channel: Channel;
  readonly way: Way;
}

/** A way to people. */
export type WayOut = 'modem' | 'mail' | 'webhook';

/** A fault of the disk or of a way to people. */
export interface BesideFault extends Span {
  readonly kind: BesideFaultKind;
  /** Which way, where it is about one. */
  readonly way?: WayOut;
  /** What a disk that fails says of itself. */
  readonly medium?: 'error' | 'read-only';
}

/** Everything that is broken in one run, and when. */
export interface Script {
  readonly shed: readonly Fault[];
  readonly host: readonly HostFault[];
  readonly sensors: readonly SensorFault[];
  readonly beside: readonly BesideFault[];
}

export const within = ({ fromMillis, untilMillis }: Span, atMillis: number): boolean =>
  fromMillis <= atMillis && atMillis < untilMillis;

/** Whether two stretches have a moment in common. */
export const meets = (one: Span, other: Span): boolean =>
  one.fromMillis < other.untilMillis && other.fromMillis < one.untilMillis;

/** All that is broken, each with the name of its injector. */
export const injected = ({
  shed,
  host,
  sensors,
  beside,
}: Script): readonly (Span & {
  readonly name: InjectorName;
  readonly channel?: Channel;
  readonly way?: WayOut;
})[] => [
  ...shed.map((fault) => ({ ...fault, name: fault.kind })),
  ...host.map((fault) => ({ ...fault, name: fault.kind })),
  ...sensors.map(({ way, ...fault }) => ({ ...fault, name: `sensor-${way}` as const })),
  ...beside.map((fault) => ({ ...fault, name: fault.kind })),
];

/** What is broken in the host or its line at this moment, of one kind; null when nothing is. */
export const standingHost = ({ host }: Script, kind: HostFaultKind, atMillis: number): HostFault | null =>
  host.find((fault) => fault.kind === kind && within(fault, atMillis)) ?? null;

/** What is broken of the disk or of the ways to people at this moment, of one kind; null when nothing is. */
export const standingBeside = (
  { beside }: Script,
  kind: BesideFaultKind,
  atMillis: number,
): BesideFault | null => beside.find((fault) => fault.kind === kind && within(fault, atMillis)) ?? null;
