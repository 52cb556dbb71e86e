import { expect } from 'vitest';
import type { FarmProblem } from '../../../src/farm/parse.ts';
import { placesOf, problemsWith, type Change } from './example.ts';

export const evidence = (key: string, value: unknown): Change => [['evidence', key], value];

/** One change, one problem: where, what was found, what is allowed, and why or what to do. */
export type Refused = readonly [
  what: string,
  changes: readonly Change[],
  place: string,
  found: string,
  allowed: RegExp,
  words: RegExp,
];

export const refuses = ([, changes, place, found, allowed, words]: Refused): void => {
  const problems = problemsWith(...changes);
  expect(placesOf(problems)).toEqual([place]);
  const [problem] = problems as [FarmProblem];
  expect(problem.found).toBe(found);
  expect(problem.allowed).toMatch(allowed);
  expect(`${problem.problem} ${problem.advice ?? ''}`).toMatch(words);
};
export const named = (rows: readonly Refused[]): (readonly [string, Refused])[] =>
  rows.map((row) => [row[0], row]);

export const TWICE = /a pin that carries nothing else/;
