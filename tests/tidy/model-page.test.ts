import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { DOUBTS, JUDGEMENTS } from '../../sim/plant/judgements.ts';

/** Name, least, central and most of each row of the table of judgements. */
const rows = [
  ...readFileSync('docs/model.md', 'utf8').matchAll(/^\| `(\w+)` +\|([^|]+)\|([^|]+)\|([^|]+)\|/gm),
].map(([, name, ...figures]) => [name, ...figures.map(Number)]);

describe('the table of judgements in the page of the model', () => {
  it('has each of them once, with the range that a rehearsal draws from', () => {
    const drawn = JUDGEMENTS.map((name) => {
      const { least, central, most } = DOUBTS[name];
      return [name, least, central, most];
    });
    const byName = (some: readonly (readonly unknown[])[]): readonly (readonly unknown[])[] =>
      some.toSorted((a, b) => String(a[0]).localeCompare(String(b[0])));
    expect(byName(rows)).toEqual(byName(drawn));
  });

  it('is counted in the operating page', () => {
    expect(readFileSync('docs/operating.md', 'utf8')).toContain(
      `the ${JUDGEMENTS.length} things that nobody has measured`,
    );
  });
});
