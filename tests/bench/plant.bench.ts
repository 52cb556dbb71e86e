import { execFileSync } from 'node:child_process';
import { rmSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { bench, describe } from 'vitest';
import { bundled } from '../support/bundled.ts';

/**
 * The simulated water beside a general solver, over sizes and over lengths. One long measurement; its time means nothing,
 * the lines that it prints do. Aims: three times the simulated days of odex at an error of held water of 2e-3 and
 * of crossings of 5 s; days×benches per second about the same from 4 benches and 60 days up (a short run is the engine
 * warming up, and one bench carries weather and tank alone); a heap that does not grow with the days.
 */
describe('the plant', () => {
  bench(
    'the standard load, beside odex, over sizes and lengths',
    async () => {
      const script = await bundled('tests/bench/plant-speed.ts');
      execFileSync(process.execPath, ['--expose-gc', script], {
        stdio: 'inherit',
        // The bundle lies in a folder of its own, and odex stays a package.
        env: { ...process.env, NODE_PATH: resolve('node_modules') },
      });
      rmSync(dirname(script), { recursive: true });
    },
    { iterations: 1, time: 0, warmupIterations: 0, warmupTime: 0 },
  );
});
