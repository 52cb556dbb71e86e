import type { Fault, FaultKind } from '../../sim/faults/fault.ts';
import type { Farm } from '../../src/farm/farm.ts';
import { localClockInstant, localDayOn, type LocalDay } from '../../src/time/local-day.ts';
import { farmWith, type Change } from '../support/farm.ts';

/** The example farm with a float valve, and every cheap piece of evidence but the level sensor. */
export const shedWith = (...changes: readonly Change[]): Farm =>
  farmWith(
    [['tank', 'topUp'], { floatValveAtLitres: 300, litresPerMinute: 8 }],
    [['evidence'], { returnFlow: 'meter', pumpCurrent: true, relayReadBack: true, tankFloat: true }],
    ...changes,
  );

export const FARM = shedWith();
/** The farm's hot day: 21 to 36 °C under a clear sky. */
export const DAY = localDayOn('2026-07-14', FARM.place.timeZone);
/** An instant of that day by the clock of the farm. */
export const clock = (hours: number, day: LocalDay = DAY): number => localClockInstant(day, hours * 60);

/** A fault from an hour of the hot day on, for good unless `until` is given. */
export const broken = (kind: FaultKind, from: number, until?: number): readonly Fault[] => [
  { kind, fromMillis: clock(from), untilMillis: until === undefined ? Infinity : clock(until) },
];
