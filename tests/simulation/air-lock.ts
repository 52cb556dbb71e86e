import type { Plant } from '../../sim/plant/plant.ts';

const SECOND = 1000;

/** Air that sits in the pump after a refill, as it shows itself in the flow. */
export interface AirLock {
  readonly fromMillis: number;
  /** Share of the flow that comes, so many seconds after a start of the pump. */
  readonly share: (secondsSinceStart: number) => number;
  /** At which start of the pump since then it has gone: each pause lets some of it rise; Infinity where none does. */
  readonly goneAtStart: number;
  /** When somebody vents the pump by hand. */
  readonly ventedAtMillis?: number;
}

/** Flow comes and goes: so many seconds of it, so many without. */
export const pulses =
  (onSeconds: number, offSeconds: number) =>
  (seconds: number): number =>
    Math.floor(seconds) % (onSeconds + offSeconds) < onSeconds ? 1 : 0;

/** Nothing at first, then all of it. */
export const late =
  (minutes: number) =>
  (seconds: number): number =>
    seconds < minutes * 60 ? 0 : 1;

/** For `works` of a simulated run: what the air leaves of the flow, looked at each second while the pump runs. */
export const airLocked = ({ fromMillis, share, goneAtStart, ventedAtMillis = Infinity }: AirLock) => {
  let starts = 0;
  let startedAt: number | null = null;
  return (plant: Plant): number => {
    const { state } = plant;
    const { atMillis, pumpOn, faults } = state;
    if (atMillis < fromMillis) return fromMillis;
    if (pumpOn && startedAt === null) {
      starts += 1;
      startedAt = atMillis;
    }
    if (!pumpOn) startedAt = null;
    const gone = starts >= goneAtStart || atMillis >= ventedAtMillis;
    const left = gone || startedAt === null ? 1 : share((atMillis - startedAt) / SECOND);
    if (left !== faults.pumpShare) {
      faults.pumpShare = left;
      plant.faultsChanged();
    }
    if (gone) return Infinity;
    return atMillis + (pumpOn ? SECOND : 10 * SECOND);
  };
};
