import type { BenchToday } from '../plant/bench.ts';
import { noWaterStep, waterStep } from '../plant/water.ts';

/** What a bench has become after so many minutes from a given start, read from a table. */
export interface WaterTable {
  /** Held water, share of capacity. */
  readonly theta: (startTheta: number, uptake: number, minutes: number) => number;
  /** Drainable water, L. */
  readonly drainable: (startTheta: number, uptake: number, minutes: number) => number;
  /** The time after which the table knows no more. */
  readonly minutesMax: number;
}

const THETA_STEPS = 16;
const UPTAKE_STEPS = 3;
/** A minute apart at first, five later on. */
const FINE_MINUTES = 30;
const COARSE_STEP_MINUTES = 5;
/** The plant is moved on in steps that grow like this, as it does by itself. */
const STEP_MINUTES = { least: 0.1, growth: 0.2, most: 1 } as const;

/** Which moments a table of so many minutes holds. */
const momentsOf = (minutes: number): readonly number[] => {
  const moments: number[] = [];
  for (let at = 0; at <= minutes; at += at < FINE_MINUTES ? 1 : COARSE_STEP_MINUTES) moments.push(at);
  return moments;
};

const read = (table: Float64Array, place: number, beyond: number): number => {
  const before = table[place] ?? NaN;
  return before + ((table[place + 1] ?? NaN) - before) * beyond;
};

/**
 * Runs a bench from one amount of drainable water, with the pump on or off, through every start of held water and every even uptake up to
 * `uptakeMax` (per minute, as a share of capacity): the plant's own steps of equations 1–3, once, to be read ten thousand times.
 */
export const waterTable = (
  today: BenchToday,
  asked: {
    readonly startLitres: number;
    readonly inflowLitresPerMinute: number;
    readonly minutes: number;
    readonly uptakeMax: number;
  },
): WaterTable => {
  const moments = momentsOf(asked.minutes);
  const minutesMax = moments[moments.length - 1] ?? 0;
  const perStart = moments.length;
  const perUptake = (THETA_STEPS + 1) * perStart;
  const thetas = new Float64Array((UPTAKE_STEPS + 1) * perUptake);
  const drainables = new Float64Array((UPTAKE_STEPS + 1) * perUptake);
  const capacity = today.capacityLitres;
  const water = noWaterStep();
  for (let uptake = 0; uptake <= UPTAKE_STEPS; uptake += 1) {
    const drunk = (uptake / UPTAKE_STEPS) * asked.uptakeMax * capacity;
    for (let start = 0; start <= THETA_STEPS; start += 1) {
      const row = uptake * perUptake + start * perStart;
      water.drainableLitres = asked.startLitres;
      water.heldLitres = (start / THETA_STEPS) * capacity;
      let at = 0;
      for (let moment = 0; moment < perStart; moment += 1) {
        const until = moments[moment] ?? 0;
        while (at < until) {
          const graded = Math.min(STEP_MINUTES.most, STEP_MINUTES.least + STEP_MINUTES.growth * at);
          const end = Math.min(until, at + graded);
          waterStep(
            today,
            water.drainableLitres,
            water.heldLitres,
            asked.inflowLitresPerMinute,
            drunk,
            end - at,
            water,
          );
          at = end;
        }
        thetas[row + moment] = water.heldLitres / capacity;
        drainables[row + moment] = water.drainableLitres;
      }
    }
  }
  const lookUp = (table: Float64Array, startTheta: number, uptake: number, minutes: number): number => {
    const t = Math.min(minutes, minutesMax);
    const moment = t < FINE_MINUTES ? t : FINE_MINUTES + (t - FINE_MINUTES) / COARSE_STEP_MINUTES;
    const start = startTheta * THETA_STEPS;
    const level = (uptake / asked.uptakeMax) * UPTAKE_STEPS;
    const m = Math.min(Math.floor(moment), perStart - 2);
    const s = Math.min(Math.floor(start), THETA_STEPS - 1);
    const u = Math.min(Math.floor(level), UPTAKE_STEPS - 1);
    const fm = moment - m;
    const fs = start - s;
    const fu = level - u;
    const at = u * perUptake + s * perStart + m;
    const a = read(table, at, fm) * (1 - fs) + read(table, at + perStart, fm) * fs;
    const b = read(table, at + perUptake, fm) * (1 - fs) + read(table, at + perUptake + perStart, fm) * fs;
    return a * (1 - fu) + b * fu;
  };
  return {
    theta: (startTheta, uptake, minutes) => lookUp(thetas, startTheta, uptake, minutes),
    drainable: (startTheta, uptake, minutes) => lookUp(drainables, startTheta, uptake, minutes),
    minutesMax,
  };
};
