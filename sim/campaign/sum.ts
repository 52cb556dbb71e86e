import { INJECTORS, type InjectorName } from '../faults/injectors.ts';
import type { CampaignResult, CampaignTask } from './task.ts';

/** What a campaign has come to. */
export interface CampaignSum {
  readonly seeds: number;
  readonly days: number;
  readonly floods: number;
  readonly alarms: number;
  readonly missedAlarms: number;
  readonly highAlarms: number;
  readonly unseenWiltings: number;
  readonly thirstyBenches: number;
  readonly repeated: number;
  /** Seeds that went on for long enough after their last fault for I6 to be judged. */
  readonly recoveriesJudged: number;
  readonly breached: number;
  /** Seeds in which each injector truly changed something. */
  readonly hits: Readonly<Record<InjectorName, number>>;
}

const total = (results: readonly CampaignResult[], of: (result: CampaignResult) => number): number =>
  results.reduce((sum, result) => sum + of(result), 0);

export const sumOf = (results: readonly CampaignResult[]): CampaignSum => ({
  seeds: results.length,
  days: total(results, ({ task }) => task.days),
  floods: total(results, ({ floods }) => floods),
  alarms: total(results, ({ alarms }) => alarms),
  missedAlarms: total(results, ({ missedAlarms }) => missedAlarms),
  highAlarms: total(results, ({ highAlarms }) => highAlarms),
  unseenWiltings: total(results, ({ unseen }) => unseen),
  thirstyBenches: total(results, ({ thirsty }) => thirsty),
  repeated: results.filter(({ task }) => task.twice).length,
  recoveriesJudged: results.filter(({ recoveryJudged }) => recoveryJudged).length,
  breached: results.filter(({ breaches }) => breaches.length > 0).length,
  hits: Object.fromEntries(
    INJECTORS.map((name) => [name, results.filter(({ hits }) => hits.includes(name)).length]),
  ) as Record<InjectorName, number>,
});

/** The one command that runs a seed again. */
export const replay = (task: CampaignTask): string =>
  [
    `npm run campaign -- --seed ${task.seed} --days ${task.days}`,
    ...(task.pair === undefined ? [] : [`--pair ${task.pair.join(',')}`]),
    ...(task.faultFree === true ? ['--fault-free'] : []),
    ...(task.bytes === true ? ['--bytes'] : []),
  ].join(' ');

const HOUR = 3_600_000;

/** What a seed has broken, with its moments in hours since its start. */
export const breachText = (result: CampaignResult): string =>
  [
    `seed ${result.task.seed}: ${result.broken.join(', ')}`,
    ...result.breaches.map(({ invariant, atMillis, words }) =>
      invariant === 'thrown'
        ? `  thrown: ${words}`
        : `  ${invariant} at ${((atMillis - result.startMillis) / HOUR).toFixed(2)} h: ${words}`,
    ),
    `  again: ${replay(result.task)}`,
  ].join('\n');
