import { ln } from '../../src/physics/portable-math.ts';
import type { BenchToday } from './bench.ts';
import { afterDecay } from './decay.ts';
import { drainRate } from './drain.ts';

/** What one step moved, in litres. */
export interface WaterStep {
  drainableLitres: number;
  heldLitres: number;
  drainedLitres: number;
  /** From drainable to held. */
  refilledLitres: number;
  /** Left the held water for the air, by the leaves or from the cups. */
  lostLitres: number;
}

export const noWaterStep = (): WaterStep => ({
  drainableLitres: 0,
  heldLitres: 0,
  drainedLitres: 0,
  refilledLitres: 0,
  lostLitres: 0,
});

/**
 * Held water after `minutes` under constant refill and the uptake of FAO-56 eq. 84: full above the stress
 * litres, in proportion below. Exact, with the crossing of the kink found in closed form.
 */
export const heldAfter = (
  held: number,
  refillPerMinute: number,
  fullUptakePerMinute: number,
  stressLitres: number,
  minutes: number,
): number => {
  const net = refillPerMinute - fullUptakePerMinute;
  if (held >= stressLitres) {
    const straight = held + net * minutes;
    if (straight >= stressLitres || net >= 0) return straight;
    const toKink = (held - stressLitres) / -net;
    return belowKink(stressLitres, refillPerMinute, fullUptakePerMinute, stressLitres, minutes - toKink);
  }
  return belowKink(held, refillPerMinute, fullUptakePerMinute, stressLitres, minutes);
};

const belowKink = (held: number, refill: number, uptake: number, stress: number, minutes: number): number => {
  const rate = uptake / stress;
  const end = afterDecay(held, refill, rate, minutes);
  if (end <= stress || rate === 0) return end;
  // As it rises through the kink the net refill is above 0. With next to no uptake the way there is straight, and
  // the logarithm of a number close to 1 would lose it.
  const straight = (stress - held) / (refill - uptake);
  const bend = straight * rate;
  const toKink = bend < 1e-5 ? straight * (1 - bend * (0.5 - bend / 3)) : ln(1 + bend) / rate;
  return stress + (refill - uptake) * Math.max(0, minutes - toKink);
};

/** Of the two ways out of drainable water the one into the roots, per minute and litre of it. */
const refillRate = (today: BenchToday, drainable: number, room: number): number =>
  (today.refillPerMinute * room) / (drainable + today.wettingLitres);

/**
 * One step of equations 1–3: x' = q − k·x^m − r, v' = r − E, r = kr·(cap − v)·x/(x + Vw).
 * Exponential midpoint: second order, positive, and conserving to rounding because drain and refill share
 * what left the drainable water. Written into `step` and given back: a caller that makes many steps lends one object.
 */
export const waterStep = (
  today: BenchToday,
  drainable: number,
  held: number,
  inflowPerMinute: number,
  fullUptakePerMinute: number,
  minutes: number,
  step: WaterStep = noWaterStep(),
): WaterStep => {
  const room = Math.max(0, today.capacityLitres - held);
  const half = minutes / 2;
  const rateNow = drainRate(today, drainable) + refillRate(today, drainable, room);
  const drainableMid = afterDecay(drainable, inflowPerMinute, rateNow, half);
  const refillNow = Math.min(
    room,
    refillRate(today, drainable, room) * (drainable + drainableMid) * 0.5 * half,
  );
  const heldMid = heldAfter(held, refillNow / half, fullUptakePerMinute, today.stressLitres, half);

  const drain = drainRate(today, drainableMid);
  const refill = refillRate(today, drainableMid, Math.max(0, today.capacityLitres - heldMid));
  const drainableEnd = afterDecay(drainable, inflowPerMinute, drain + refill, minutes);
  const left = Math.max(0, drainable + inflowPerMinute * minutes - drainableEnd);
  const refilled = drain + refill === 0 ? 0 : Math.min(room, (left * refill) / (drain + refill));
  const drained = left - refilled;
  const heldEnd = heldAfter(held, refilled / minutes, fullUptakePerMinute, today.stressLitres, minutes);
  step.drainableLitres = drainableEnd;
  step.heldLitres = heldEnd;
  step.drainedLitres = drained;
  step.refilledLitres = refilled;
  step.lostLitres = held + refilled - heldEnd;
  return step;
};
