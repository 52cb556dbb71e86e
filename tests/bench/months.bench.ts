import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { symlinkSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { text } from 'node:stream/consumers';
import { bench, describe } from 'vitest';
import { bundled } from '../support/bundled.ts';
import { startPeers } from '../support/peers.ts';
import { ownFolder, realFarmText, written } from '../system/rillkeeper.ts';

/**
 * By how much the memory of the host grows in a month: the whole host with book and herald beside a simulated shed, as fast as
 * it goes. Of each day the heap after a collection and what is resident; the slope is that of a least-squares line through the
 * last two thirds of the days, for it warms up in the first. Aim: at most 1 MB a month.
 */
const DAYS = 30;

const slope = (points: readonly (readonly [x: number, y: number])[]): number => {
  const mean = (of: readonly number[]): number => of.reduce((sum, one) => sum + one, 0) / of.length;
  const [x, y] = [mean(points.map(([at]) => at)), mean(points.map(([, value]) => value))];
  const spread = points.map(([at, value]) => [(at - x) * (value - y), (at - x) ** 2] as const);
  return mean(spread.map(([both]) => both)) / mean(spread.map(([, square]) => square));
};

describe('the memory of the host', () => {
  bench(
    'over a month of a simulated shed',
    async () => {
      const program = await bundled('tests/bench/a-month.ts');
      // The threads of the host stand beside its program.
      for (const file of ['journal.mjs', 'herald.mjs'])
        symlinkSync(resolve('dist', file), join(dirname(program), file));
      const peers = await startPeers('well');
      const folder = ownFolder();
      const farm = written(folder, 'farm.yaml', `${realFarmText('A month')}${peers.herald}`);
      const child = spawn(
        process.execPath,
        ['--max-semi-space-size=2', '--expose-gc', program, farm, folder, String(DAYS)],
        {
          stdio: ['ignore', 'pipe', 'inherit'],
        },
      );
      const [said] = await Promise.all([text(child.stdout), once(child, 'exit')]);
      await peers.close();
      const rows = said
        .trim()
        .split('\n')
        .map((line) => line.split(' ').map(Number) as [number, number, number]);
      const late = rows.filter(([day]) => day > DAYS / 3);
      const perMonth = (column: 1 | 2): string =>
        (30 * slope(late.map((row) => [row[0], row[column]]))).toFixed(2);
      const [first, last] = [late[0]!, late.at(-1)!];
      process.stdout.write(
        `heap ${first[1]} MB on day ${first[0]}, ${last[1]} on day ${last[0]}: ${perMonth(1)} MB a month\n` +
          `resident ${first[2]} MB, ${last[2]}: ${perMonth(2)} MB a month\n`,
      );
    },
    { iterations: 1, time: 0, warmupIterations: 0, warmupTime: 0 },
  );
});
