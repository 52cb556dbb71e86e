import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { FaultRow, Layer } from '../../sim/faults/fault-row.ts';
import { INJECTORS } from '../../sim/faults/injectors.ts';
import { FAULT_ROWS } from '../../sim/faults/table.ts';

const contentOf = (path: string): string => (existsSync(path) ? readFileSync(path, 'utf8') : '');

const lacks = (row: FaultRow): readonly string[] => [
  ...(row.injectors.length === 0 ? ['no injector'] : []),
  ...(row.tests.length === 0 ? ['no test'] : []),
  ...(row.detection === '' || row.reaction === '' ? ['no detection or reaction'] : []),
  ...(row.invariants.length === 0 || row.layers.length === 0 ? ['no invariant or layer'] : []),
];

/** Injectors and tests that the row names and that are not where it says. */
const astray = (row: FaultRow): readonly string[] => [
  ...row.injectors.flatMap((injector) => {
    if (typeof injector === 'string') return INJECTORS.includes(injector) ? [] : [injector];
    return contentOf(injector.path).includes(injector.name) ? [] : [`${injector.path}: ${injector.name}`];
  }),
  ...row.tests.flatMap(({ path, title }) => (contentOf(path).includes(title) ? [] : [`${path}: ${title}`])),
];

/** Where tests of each layer are. The facts of a board are held by the compiled firmware in its emulator, by pseudo-terminals too. */
const FOLDERS: Readonly<Record<Layer, RegExp>> = {
  P: /^tests\/(unit|laws|keeper\/core|keeper\/handover)\//,
  S: /^tests\/(simulation|campaign|keeper\/handover|keeper\/[^/]+$)/,
  // The channels of the herald meet a broker, mail server and modem of their own.
  T: /^tests\/(system|contract|unit\/herald)\//,
  A: /^tests\/(keeper\/firmware\/|keeper\/[^/]+$|contract\/[a-z]+-facts\.ts$)/,
  O: /^tests\/(system|journal)\//,
  B: /^tests\/page\//,
};

const unmetLayers = ({ number, layers, tests }: FaultRow): readonly string[] =>
  layers
    .filter((layer) => !tests.some(({ path }) => FOLDERS[layer].test(path)))
    .map((layer) => `${number} ${layer}`);

/** What stands there as a name of its own: declared, called, given something, or a text as a whole; no number, no part of a word. */
const isName = (name: string, content: string): boolean => {
  const literal = name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  return (
    name.length >= 3 &&
    /[a-z]/i.test(name) &&
    new RegExp(`(?<![\\w-])${literal}\\s*(?:[:=(,;)}]|=>)|['"\`]${literal}|(?:class|struct) ${literal}`).test(
      content,
    )
  );
};

const namelessInjectors = ({ number, injectors }: FaultRow): readonly string[] =>
  injectors.flatMap((injector) =>
    typeof injector === 'string' || isName(injector.name, contentOf(injector.path))
      ? []
      : [`${number} ${injector.path}: ${injector.name}`],
  );

const numbersOf = (rows: readonly FaultRow[]): readonly number[] => rows.map(({ number }) => number);

describe('the fault table', () => {
  it('has the faults 1 to 72, each once and in order', () => {
    expect(numbersOf(FAULT_ROWS)).toEqual(Array.from({ length: 72 }, (_, place) => place + 1));
  });

  it('has injector, test, detection, reaction, invariant and layer in every row', () => {
    expect(numbersOf(FAULT_ROWS.filter((row) => lacks(row).length > 0))).toEqual([]);
  });

  it('names only injectors and test titles that exist', () => {
    expect(FAULT_ROWS.flatMap(astray)).toEqual([]);
  });

  it('names for each layer of a row a test in a folder of that layer', () => {
    expect(FAULT_ROWS.flatMap(unmetLayers)).toEqual([]);
  });

  it('names injectors that are names where they stand: no numbers, no parts of words', () => {
    expect(FAULT_ROWS.flatMap(namelessInjectors)).toEqual([]);
  });

  it('tries every injector of the campaign in some row', () => {
    const named = new Set(FAULT_ROWS.flatMap(({ injectors }) => injectors));
    expect(INJECTORS.filter((injector) => !named.has(injector))).toEqual([]);
  });
});
