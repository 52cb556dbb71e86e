import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { compiled, factOf } from '../support/cpp.ts';

const FOLDER = 'tests/keeper/core';
const sources = readdirSync(FOLDER)
  .filter((file) => file.endsWith('.cpp'))
  .sort();
const programs = await compiled(sources.map((file) => join(FOLDER, file)));
const facts: { readonly source: string; readonly lines: readonly string[] }[] = [];
for (const source of sources) facts.push({ source, lines: await programs.lines(source) });

describe("the keeper's judgement, compiled for this machine", () => {
  afterAll(programs.remove);

  it.each(facts)('$source tells facts and ends in good order', ({ lines }) => {
    expect(lines.length).toBeGreaterThan(2);
  });

  describe.each(facts)('$source', ({ lines }) => {
    it.each(lines.map(factOf))('$title', ({ failure }) => {
      expect(failure).toBeNull();
    });
  });
});
