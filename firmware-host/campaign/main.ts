import { join } from 'node:path';
import process from 'node:process';
import { availableParallelism } from 'node:os';
import { parseArgs } from 'node:util';
import { inThreads } from '../work/pool.ts';
import { INJECTORS } from '../../sim/faults/injectors.ts';
import { breachText, sumOf } from '../../sim/campaign/sum.ts';
import type { CampaignResult, CampaignTask } from '../../sim/campaign/task.ts';
import { monthTasks, pairTasks, swarmTasks } from '../../sim/campaign/tasks.ts';

const HELP = `npm run campaign -- [--seeds N] [--days D] [--from SEED] [--seed ONE] [--pairs] [--months N] [--bytes] [--json]

Runs the controller in simulated sheds in which much breaks at once, and judges water and journal.
  --seeds N     so many seeds, 100 unless given         --pairs       every two injectors together, once each
  --days D      days of each, 3 unless given            --months N    fault-free months with the noise of sensors
  --from SEED   the first seed, 1 unless given          --json        the sums as one object on stdout
  --seed ONE    one seed, told whole; with --pair ONE,OTHER or --fault-free as its replay command says
  --bytes       the host's own loop, a look a second, and all between it and the shed over the bytes of a line
`;

const { values } = parseArgs({
  options: {
    seeds: { type: 'string' },
    days: { type: 'string' },
    from: { type: 'string' },
    seed: { type: 'string' },
    pair: { type: 'string' },
    months: { type: 'string' },
    pairs: { type: 'boolean' },
    'fault-free': { type: 'boolean' },
    bytes: { type: 'boolean' },
    json: { type: 'boolean' },
    help: { type: 'boolean' },
  },
});

const whole = (text: string | undefined, usual: number): number => {
  const number = text === undefined ? usual : Number(text);
  if (Number.isSafeInteger(number) && number > 0) return number;
  process.stderr.write(`"${text ?? ''}" is no whole number above 0\n${HELP}`);
  process.exit(2);
};

const drawnTasks = (): readonly CampaignTask[] => {
  const from = whole(values.from, 1);
  const days = daysAsked(values.days);
  if (values.seed !== undefined) {
    const names = values.pair?.split(',') ?? [];
    const pair = INJECTORS.filter((name) => names.includes(name));
    return [
      {
        seed: whole(values.seed, 1),
        days,
        twice: true,
        ...(pair.length > 0 ? { pair } : {}),
        ...(values['fault-free'] === true ? { faultFree: true as const } : {}),
      },
    ];
  }
  if (values.months !== undefined) return monthTasks(from, whole(values.months, 1));
  return values.pairs === true ? pairTasks(from, days) : swarmTasks(from, whole(values.seeds, 100), days);
};

/** Days may be halves. */
const daysAsked = (text: string | undefined): number => {
  const number = text === undefined ? 3 : Number(text);
  if (Number.isFinite(number) && number >= 0.25) return number;
  process.stderr.write(`"${text ?? ''}" is no number of days from 0.25 on\n${HELP}`);
  process.exit(2);
};

/** All that is asked for, the way it is asked for. */
const tasksAsked = (): readonly CampaignTask[] =>
  values.bytes === true ? drawnTasks().map((task) => ({ ...task, bytes: true })) : drawnTasks();

if (values.help === true) {
  process.stdout.write(HELP);
} else {
  const tasks = tasksAsked();
  const results: CampaignResult[] = [];
  const worker = { file: join(import.meta.dirname, 'campaign-worker.mjs'), most: availableParallelism() };
  for await (const { result } of inThreads<CampaignResult>(
    worker,
    { name: 'campaign', job: null },
    tasks,
    {},
  )) {
    results.push(result);
    if (result.breaches.length > 0) process.stderr.write(`${breachText(result)}\n`);
    if (results.length % 50 === 0) process.stderr.write(`${results.length} of ${tasks.length} seeds\n`);
  }
  const sum = sumOf(results);
  process.stdout.write(`${values.json === true ? JSON.stringify(sum) : JSON.stringify(sum, null, 2)}\n`);
  process.exitCode = sum.breached > 0 || (values.months !== undefined && sum.missedAlarms > 0) ? 1 : 0;
}
