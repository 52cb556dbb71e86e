import { createRequire } from 'node:module';

/** What tests use of odex 2.0.4, the extrapolation solver of Hairer, Nørsett and Wanner (Solving ODEs I, II.9). */
interface Solver {
  absoluteTolerance: number;
  relativeTolerance: number;
  initialStepSize: number;
  solve(
    derivative: (x: number, y: readonly number[]) => number[],
    x: number,
    y0: readonly number[],
    xEnd: number,
  ): { readonly y: number[]; readonly outcome: number };
}

/** Not imported by name: the package ships its source as types, and that source is not strict TypeScript. */
const { Solver: OdexSolver } = createRequire(import.meta.url)('odex') as {
  readonly Solver: new (dimension: number) => Solver;
};

const CONVERGED = 0;

/** y at `to`, from `start` at `from`, to the tolerance given, absolute and relative. */
export const integrated = (
  derivative: (x: number, y: readonly number[]) => number[],
  from: number,
  start: readonly number[],
  to: number,
  tolerance: number,
): readonly number[] => {
  const solver = new OdexSolver(start.length);
  solver.absoluteTolerance = tolerance;
  solver.relativeTolerance = tolerance;
  solver.initialStepSize = (to - from) / 2;
  const { y, outcome } = solver.solve(derivative, from, start, to);
  if (outcome !== CONVERGED) throw new Error(`no convergence between ${String(from)} and ${String(to)}`);
  return y;
};
