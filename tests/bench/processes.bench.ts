import { execFileSync } from 'node:child_process';
import { bench, describe } from 'vitest';

/**
 * Whole processes, side by side: what a person waits for. Read the ratios to bare Node rather than the
 * milliseconds of one machine. Aims: --help within 300 ms, a rehearsal of one day with four benches within
 * 1.5 s, 24 h of the whole host over the bytes of a software board within 10 s. `npm run bench` builds first.
 */
const node = (...args: readonly string[]): void => {
  execFileSync(process.execPath, args, { stdio: 'ignore' });
};
const MAIN = 'dist/main.mjs';
const FARM = 'docs/examples/ribeira.yaml';
const OFTEN = { iterations: 10, time: 0, warmupIterations: 1, warmupTime: 0 };
const SELDOM = { iterations: 5, time: 0, warmupIterations: 1, warmupTime: 0 };

describe('whole processes', () => {
  bench(
    'bare node',
    () => {
      node('--eval', '0');
    },
    OFTEN,
  );
  bench(
    'rillkeeper --help',
    () => {
      node(MAIN, '--help');
    },
    OFTEN,
  );
  bench(
    'rillkeeper check',
    () => {
      node(MAIN, 'check', FARM);
    },
    OFTEN,
  );
  bench(
    'rehearse one day, 4 benches, central run and 4 draws',
    () => {
      node(MAIN, 'rehearse', FARM);
    },
    SELDOM,
  );
  bench(
    'run --for 24h --speed max',
    () => {
      node(MAIN, 'run', FARM, '--for', '24h', '--speed', 'max');
    },
    SELDOM,
  );
});
