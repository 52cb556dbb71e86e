import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { FAULTS } from '../../sim/faults/fault.ts';

/** Files of the project as it will be committed. */
const files = execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard'], {
  encoding: 'utf8',
})
  .split('\n')
  .filter((file) => file !== '' && existsSync(file));

const textOf = (file: string): string => readFileSync(file, 'utf8');
const ofKind = (...endings: readonly string[]): readonly string[] =>
  files.filter((file) => endings.some((ending) => file.endsWith(ending)));
const SELF = 'tests/tidy/house.test.ts';

const holding = (candidates: readonly string[], pattern: RegExp): readonly string[] =>
  candidates.filter((file) => file !== SELF && pattern.test(textOf(file)));

describe('the house is tidy', () => {
  it('has more than a hundred files to look at', () => {
    expect(files.length).toBeGreaterThan(100);
  });

  it('names no path of a machine', () => {
    const texts = ofKind('.ts', '.mjs', '.md', '.yaml', '.json', '.cjs').concat('.ci/run');
    expect(holding(texts, /(?:^|[\s"'(=])\/(?:work|root|home|Users)\//m)).toEqual([]);
  });

  it('has no test that is skipped, left for later or run alone', () => {
    const left = /\b(?:it|test|describe|bench)\.(?:only|skip|todo|fails|skipIf|runIf)\b|\bx(?:it|describe)\(/;
    expect(holding(ofKind('.test.ts', '.bench.ts'), left)).toEqual([]);
  });

  it('keeps no download address in the lockfile', () => {
    expect(textOf('package-lock.json')).not.toMatch(/"resolved"|https?:\/\/[^"]*\.tgz/);
  });

  it('has no file of catch-all name', () => {
    expect(files.filter((file) => /(?:^|\/)(?:utils?|helpers?|common|misc)\.ts$/.test(file))).toEqual([]);
  });

  it('keeps product files under 300 lines', () => {
    const long = ofKind('.ts').filter(
      (file) => /^(?:src|sim|firmware-host)\//.test(file) && textOf(file).split('\n').length > 300,
    );
    expect(long).toEqual([]);
  });

  it('has a simulation for every fault that can be scripted', () => {
    const simulations = ofKind('.test.ts')
      .filter((file) => file.startsWith('tests/simulation/') || file.startsWith('tests/unit/sim-'))
      .map(textOf)
      .join('\n');
    expect(Object.keys(FAULTS).filter((kind) => !simulations.includes(`'${kind}'`))).toEqual([]);
  });

  it('names every fault that can be scripted in the operating page', () => {
    const page = textOf('docs/operating.md');
    expect(Object.keys(FAULTS).filter((kind) => !page.includes(`\`${kind}\``))).toEqual([]);
  });

  it.each(ofKind('.md'))('%s links only to files that exist', (file) => {
    const links = [...textOf(file).matchAll(/\]\((?!https?:|#)([^)#]+)(?:#[^)]*)?\)/g)].map(
      ([, link]) => link ?? '',
    );
    expect(links.filter((link) => !existsSync(join(dirname(file), link)))).toEqual([]);
  });
});
