import type { InjectorName } from './injectors.ts';

export type InvariantName =
  'I1' | 'I2' | 'I3' | 'I4' | 'I5' | 'I6' | 'I7' | 'I8' | 'I9' | 'I10' | 'I11' | 'I12' | 'I13';

/**
 * P pure unit or property test, S simulated shed, T real host with a stand-in board, A real firmware in an emulator,
 * O fault of the operating system on the real process, B real browser.
 */
export type Layer = 'P' | 'S' | 'T' | 'A' | 'O' | 'B';

/** A test by its file and its title as it stands there. */
export interface NamedTest {
  readonly path: string;
  readonly title: string;
}

/** An injector of a test: the file in which it is and its name there. */
export interface OwnInjector {
  readonly path: string;
  readonly name: string;
}

/** One thing that can go wrong, and how that is known to be survived. */
export interface FaultRow {
  readonly number: number;
  readonly fault: string;
  readonly detection: string;
  readonly reaction: string;
  readonly invariants: readonly InvariantName[];
  readonly layers: readonly Layer[];
  readonly injectors: readonly (InjectorName | OwnInjector)[];
  readonly tests: readonly NamedTest[];
}

export interface FaultGroup {
  readonly group: string;
  readonly rows: readonly FaultRow[];
}

/** A test and an injector in one line each, so that a row stays readable. */
export const test = (path: string, title: string): NamedTest => ({ path: `tests/${path}`, title });
export const own = (path: string, name: string): OwnInjector => ({ path: `tests/${path}`, name });

/** The campaign draws this fault together with others and judges what comes of it. */
export const CAMPAIGN: NamedTest = test(
  'campaign/swarm.test.ts',
  'breaks no invariant in 500 seeds of 3 days, each with three faults or more at once',
);
