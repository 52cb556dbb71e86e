import { join } from 'node:path';
import process from 'node:process';
import { availableParallelism } from 'node:os';
import { inThreads } from '../work/pool.ts';
import { breachText, replay, sumOf } from '../../sim/campaign/sum.ts';
import type { CampaignResult } from '../../sim/campaign/task.ts';
import { asked, HELP, type Asked } from './options.ts';

const run = async ({
  tasks,
  output,
  missedAlarms,
}: Extract<Asked, { kind: 'campaign' }>): Promise<number> => {
  const results: CampaignResult[] = [];
  const left = new Map(tasks.entries());
  const worker = { file: join(import.meta.dirname, 'campaign-worker.mjs'), most: availableParallelism() };
  let whole = true;
  try {
    for await (const { index, result } of inThreads<CampaignResult>(
      worker,
      { name: 'campaign', job: null },
      tasks,
      {},
    )) {
      left.delete(index);
      results.push(result);
      if (result.breaches.length > 0) process.stderr.write(`${breachText(result)}\n`);
      if (results.length % 50 === 0) process.stderr.write(`${results.length} of ${tasks.length} seeds\n`);
    }
  } catch (error) {
    // What a seed throws is a breach of that seed; a thread that dies takes the seed with it that it had in hand.
    whole = false;
    const inHand = [...left.values()].slice(0, worker.most);
    process.stderr.write(
      `${String(error)}\n${left.size} of ${tasks.length} seeds were not judged; in hand were\n`,
    );
    for (const task of inHand) process.stderr.write(`  again: ${replay(task)}\n`);
  }
  const sum = sumOf(results);
  process.stdout.write(`${output === 'json' ? JSON.stringify(sum) : JSON.stringify(sum, null, 2)}\n`);
  return whole && sum.breached === 0 && (missedAlarms === 'allowed' || sum.missedAlarms === 0) ? 0 : 1;
};

const wanted = asked(process.argv.slice(2));
switch (wanted.kind) {
  case 'help':
    process.stdout.write(HELP);
    break;
  case 'refused':
    process.stderr.write(`${wanted.why}\n${HELP}`);
    process.exitCode = 2;
    break;
  case 'campaign':
    process.exitCode = await run(wanted);
}
