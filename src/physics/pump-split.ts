import { assert, itemAt } from '../units/assertion.ts';

/**
 * How one pump feeds several branches at once. Heads and lifts in m above the tank level, flows in L/min; pump curve
 * H = H0 − a·Q², branch curve H = z + R·q², with a and R in m per (L/min)². The square law is that of rough turbulent
 * flow (Darcy–Weisbach with a constant friction factor; Çengel & Cimbala 2006, ch. 8 on parallel pipes).
 */
export interface Branch {
  readonly liftMetres: number;
  /** Above 0. */
  readonly resistance: number;
}

export interface PumpAndBranches {
  readonly headMetresMax: number;
  /** 0 or more; 0 is a pump whose head does not fall with flow. */
  readonly curveCoefficient: number;
  readonly branches: readonly Branch[];
}

/** Halving alone needs about 60 rounds to reach neighbouring doubles; Newton needs about 8. */
const ROUNDS_MAX = 200;
/** The head is already right to its last bits, so one or two rounds do. */
const POLISHING_ROUNDS_MAX = 4;

const largest = (errors: readonly number[]): number => Math.max(...errors.map((error) => Math.abs(error)));

/** R of a branch that carries a known flow (above 0) at a known head, m per (L/min)². */
export const branchResistance = (headMetres: number, liftMetres: number, litresPerMinute: number): number =>
  (headMetres - liftMetres) / (litresPerMinute * litresPerMinute);

/** a of the pump curve from its head without flow and its flow without head, m per (L/min)². */
export const pumpCurveCoefficient = (headMetresMax: number, litresPerMinuteMax: number): number =>
  headMetresMax / (litresPerMinuteMax * litresPerMinuteMax);

/** Head above the common lift at which pump and branches of equal lift agree: closed form. */
const riseOverEqualLifts = (available: number, curveCoefficient: number, conductance: number): number =>
  available / (1 + curveCoefficient * conductance * conductance);

/** Each flow's branch head less the pump's head at their sum, m; 0 for a branch that carries nothing. */
const headErrors = (asked: PumpAndBranches, flows: readonly number[]): readonly number[] => {
  const total = flows.reduce((sum, flow) => sum + flow, 0);
  const head = asked.headMetresMax - asked.curveCoefficient * total * total;
  return asked.branches.map(({ liftMetres, resistance }, index) => {
    const flow = itemAt(flows, index);
    return flow > 0 ? liftMetres + resistance * flow * flow - head : 0;
  });
};

/**
 * Flows brought onto both curves to the last bits by Newton on the flows themselves. A head near the lift of a
 * branch of low resistance cannot be written finely enough to give its flow; the flow can.
 */
const polishedFlows = (asked: PumpAndBranches, found: readonly number[]): readonly number[] => {
  let flows = found;
  let errors = headErrors(asked, flows);
  for (let round = 0; round < POLISHING_ROUNDS_MAX; round += 1) {
    const total = flows.reduce((sum, flow) => sum + flow, 0);
    const pumpSlope = 2 * asked.curveCoefficient * total;
    const slopes = asked.branches.map(({ resistance }, index) => 2 * resistance * itemAt(flows, index));
    let wanted = 0;
    let coupling = 1;
    slopes.forEach((slope, index) => {
      if (slope === 0) return;
      wanted -= itemAt(errors, index) / slope;
      coupling += pumpSlope / slope;
    });
    const pumpHeadChange = (pumpSlope * wanted) / coupling;
    const next = flows.map((flow, index) => {
      const slope = itemAt(slopes, index);
      return slope === 0 ? flow : flow - (itemAt(errors, index) + pumpHeadChange) / slope;
    });
    const nextErrors = headErrors(asked, next);
    if (next.some((flow) => flow < 0) || largest(nextErrors) >= largest(errors)) break;
    flows = next;
    errors = nextErrors;
  }
  return flows;
};

/**
 * L/min through each branch with all of them open, in the order given. A branch whose lift the pump does not reach
 * carries 0: the check valves or the lip of the channel let nothing back. Closed form for equal lifts, otherwise
 * Newton on the head, kept inside a shrinking bracket, since supply falls and demand rises with head.
 */
export const splitFlows = (asked: PumpAndBranches): readonly number[] => {
  const { headMetresMax, curveCoefficient, branches } = asked;
  assert(curveCoefficient >= 0, `pump curve coefficient ${curveCoefficient} below 0`);
  if (branches.length === 0) return [];
  const lowest = Math.min(...branches.map((branch) => branch.liftMetres));
  const available = headMetresMax - lowest;
  const parts = branches.map(({ liftMetres, resistance }) => {
    assert(resistance > 0, `branch resistance ${resistance} not above 0`);
    return { step: liftMetres - lowest, conductance: 1 / Math.sqrt(resistance) };
  });
  if (available <= 0) return parts.map(() => 0);
  const flowsAt = (rise: number): readonly number[] =>
    parts.map((part) => part.conductance * Math.sqrt(Math.max(0, rise - part.step)));

  const conductance = parts.reduce((sum, part) => sum + part.conductance, 0);
  // With every branch at the lowest lift demand is at least the true one, so this head is at most the true one.
  const start = riseOverEqualLifts(available, curveCoefficient, conductance);
  if (curveCoefficient === 0 || parts.every((part) => part.step === 0)) return flowsAt(start);

  let low = start;
  let high = available;
  let rise = start;
  for (let round = 0; round < ROUNDS_MAX; round += 1) {
    const supply = Math.sqrt((available - rise) / curveCoefficient);
    let excess = -supply;
    let slope = 0.5 / (curveCoefficient * supply);
    for (const part of parts) {
      if (rise <= part.step) continue;
      const flow = part.conductance * Math.sqrt(rise - part.step);
      excess += flow;
      slope += (0.5 * part.conductance * part.conductance) / flow;
    }
    if (excess === 0) break;
    if (excess < 0) low = rise;
    else high = rise;
    const newton = rise - excess / slope;
    const next = newton > low && newton < high ? newton : low + (high - low) / 2;
    if (next === rise || next <= low || next >= high) break;
    rise = next;
  }
  return polishedFlows(asked, flowsAt(rise));
};

export interface MeasuredBranches {
  readonly headMetresMax: number;
  readonly litresPerMinuteMax: number;
  readonly liftMetres: readonly number[];
  /** Flow into each branch with all of them open; each above 0, in the order of `liftMetres`. */
  readonly litresPerMinute: readonly number[];
}

export type BranchFit =
  | {
      readonly kind: 'fitted';
      readonly curveCoefficient: number;
      readonly headMetres: number;
      readonly branches: readonly Branch[];
    }
  /** At the measured sum of flows the pump's head does not rise above the highest lift. */
  | {
      readonly kind: 'pump-too-weak';
      readonly headMetres: number;
      readonly neededMetres: number;
    };

/** The resistances with which each branch carries its measured flow while all are open; inverse of `splitFlows`. */
export const fittedBranches = (measured: MeasuredBranches): BranchFit => {
  const { headMetresMax, litresPerMinuteMax, liftMetres, litresPerMinute } = measured;
  assert(liftMetres.length === litresPerMinute.length, 'one flow for each lift');
  assert(
    litresPerMinute.every((flow) => flow > 0),
    'a measured flow is above 0',
  );
  const curveCoefficient = pumpCurveCoefficient(headMetresMax, litresPerMinuteMax);
  const total = litresPerMinute.reduce((sum, flow) => sum + flow, 0);
  const headMetres = headMetresMax - curveCoefficient * total * total;
  const neededMetres = Math.max(...liftMetres);
  if (headMetres <= neededMetres) return { kind: 'pump-too-weak', headMetres, neededMetres };
  return {
    kind: 'fitted',
    curveCoefficient,
    headMetres,
    branches: liftMetres.map((lift, index) => ({
      liftMetres: lift,
      resistance: branchResistance(headMetres, lift, itemAt(litresPerMinute, index)),
    })),
  };
};
