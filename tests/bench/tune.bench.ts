import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { bench, describe } from 'vitest';

const ROOT = join(import.meta.dirname, '../..');
const MAIN = join(ROOT, 'dist/main.mjs');
const FARM = join(ROOT, 'docs/examples/ribeira.yaml');
const ONCE = { iterations: 2, time: 0, warmupIterations: 0, warmupTime: 0 };

/** 12 numbers of floods, 101 lengths, 9 rules of temperature, and the present plan. */
const PLANS = 10_909;
const WIDE = [
  ...['--floods', '1-12', '--minutes', '10-35:0.25', '--rule=-8,-7,-6,-5,-4,-3,-2,-1,0'],
  ...['--days', '3', '--draws', '32', '--weeks', '0', '--json'],
];

/** Aim: ten thousand plans of three days under 33 runs, finalists and table by the whole model, within 10 s on two cores. */
describe('the search for the night', () => {
  bench(
    `${PLANS} plans, 3 days, central run and 32 draws`,
    () => {
      const out = execFileSync(process.execPath, [MAIN, 'tune', FARM, '--part', 'night', ...WIDE], {
        encoding: 'utf8',
        maxBuffer: 2 ** 26,
      });
      const { plans } = JSON.parse(out) as { readonly plans: number };
      if (plans !== PLANS) throw new Error(`${plans} plans, not ${PLANS}`);
    },
    ONCE,
  );
});
