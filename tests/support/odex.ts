import { createRequire } from 'node:module';

/** The value of one state, counted from 0, within the last step. */
type Dense = (state: number, x: number) => number;

/** What tests use of odex 2.0.4, the extrapolation solver of Hairer, Nørsett and Wanner (Solving ODEs I, II.9). */
interface Solver {
  absoluteTolerance: number;
  relativeTolerance: number;
  initialStepSize: number;
  denseOutput: boolean;
  solve(
    derivative: Derivative,
    x: number,
    y0: readonly number[],
    xEnd: number,
    step?: (count: number, xBefore: number, x: number, y: number[], dense: Dense) => void,
  ): { readonly y: number[]; readonly outcome: number };
}

/** Not imported by name: the package ships its source as types, and that source is not strict TypeScript. */
const { Solver: OdexSolver } = createRequire(import.meta.url)('odex') as {
  readonly Solver: new (dimension: number) => Solver;
};

const CONVERGED = 0;

type Derivative = (x: number, y: readonly number[]) => number[];

/** A flood and a rest both begin with a change: the first step must not leap over it, or it is made in vain. */
const FIRST_MINUTES = 0.5;

const solverOf = (states: number, from: number, to: number, tolerance: number): Solver => {
  const solver = new OdexSolver(states);
  solver.absoluteTolerance = tolerance;
  solver.relativeTolerance = tolerance;
  solver.initialStepSize = Math.min(FIRST_MINUTES, (to - from) / 2);
  return solver;
};

const converged = (
  { y, outcome }: { readonly y: number[]; readonly outcome: number },
  from: number,
  to: number,
): number[] => {
  if (outcome !== CONVERGED) throw new Error(`no convergence between ${String(from)} and ${String(to)}`);
  return y;
};

/** y at `to`, from `start` at `from`, to the tolerance given, absolute and relative. */
export const integrated = (
  derivative: Derivative,
  from: number,
  start: readonly number[],
  to: number,
  tolerance: number,
): readonly number[] =>
  converged(solverOf(start.length, from, to, tolerance).solve(derivative, from, start, to), from, to);

/** The same, and tells after each of its steps how to read any state between its ends. */
export const watched = (
  derivative: Derivative,
  from: number,
  start: readonly number[],
  to: number,
  tolerance: number,
  tell: (after: number, upTo: number, valueAt: Dense) => void,
): readonly number[] => {
  const solver = solverOf(start.length, from, to, tolerance);
  solver.denseOutput = true;
  const end = solver.solve(derivative, from, start, to, (_, before, x, __, dense) => {
    if (x > before) tell(before, x, dense);
  });
  return converged(end, from, to);
};
