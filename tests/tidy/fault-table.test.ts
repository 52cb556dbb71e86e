import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { FaultRow } from '../../sim/faults/fault-row.ts';
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

  it('tries every injector of the campaign in some row', () => {
    const named = new Set(FAULT_ROWS.flatMap(({ injectors }) => injectors));
    expect(INJECTORS.filter((injector) => !named.has(injector))).toEqual([]);
  });
});
