import { parseArgs } from 'node:util';
import { INJECTORS, type InjectorName } from '../../sim/faults/injectors.ts';
import type { CampaignTask } from '../../sim/campaign/task.ts';
import { monthTasks, pairTasks, swarmTasks } from '../../sim/campaign/tasks.ts';

export const HELP = `npm run campaign -- [--seeds N] [--days D] [--from SEED] [--seed ONE] [--pairs] [--months N] [--bytes] [--json]

Runs the controller in simulated sheds in which much breaks at once, and judges water and journal.
  --seeds N     so many seeds, 100 unless given         --pairs       every two injectors together, once each
  --days D      days of each, 3 unless given            --months N    fault-free months with the noise of sensors
  --from SEED   the first seed, 1 unless given          --json        the sums as one object on stdout
  --seed ONE    one seed, told whole; with --pair ONE,OTHER or --fault-free as its replay command says
  --bytes       the host's own loop, a look a second, and all between it and the shed over the bytes of a line
Ends with 0 where nothing was broken, 1 where something was, 2 where it was asked what it does not know.
`;

/** What a command line asks for, or why nothing can be made of it. */
export type Asked =
  | { readonly kind: 'help' }
  | { readonly kind: 'refused'; readonly why: string }
  | {
      readonly kind: 'campaign';
      readonly tasks: readonly CampaignTask[];
      readonly output: 'lines' | 'json';
      /** Fault-free months may raise no alarm of a missed flood. */
      readonly missedAlarms: 'allowed' | 'none';
    };

const SEEDS_USUAL = 100;
const DAYS_USUAL = 3;
const DAYS_LEAST = 0.25;

const OPTIONS = {
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
} as const;

type Option = keyof typeof OPTIONS;

/** Options that would do nothing beside this one. */
const IDLE_BESIDE: Partial<Readonly<Record<Option, readonly Option[]>>> = {
  seed: ['seeds', 'from', 'pairs', 'months'],
  months: ['seeds', 'days', 'pairs'],
  pairs: ['seeds'],
  'fault-free': ['pair'],
};

/** Those that say something of one seed. */
const OF_ONE_SEED: readonly Option[] = ['pair', 'fault-free'];

/** What the command line cannot mean. */
class Refused extends Error {}

const whole = (text: string | undefined, usual: number): number => {
  const number = text === undefined ? usual : Number(text);
  if (Number.isSafeInteger(number) && number > 0) return number;
  throw new Refused(`"${text ?? ''}" is no whole number above 0`);
};

/** Days may be halves. */
const daysAsked = (text: string | undefined): number => {
  const number = text === undefined ? DAYS_USUAL : Number(text);
  if (Number.isFinite(number) && number >= DAYS_LEAST) return number;
  throw new Refused(`"${text ?? ''}" is no number of days from ${DAYS_LEAST} on`);
};

/** In the order in which they stand: the seed draws their spans in it. */
const injectorsAsked = (text: string): readonly InjectorName[] =>
  text.split(',').map((asked) => {
    const known = INJECTORS.find((name) => name === asked);
    if (known === undefined)
      throw new Refused(`"${asked}" is no injector; there are ${INJECTORS.join(', ')}`);
    return known;
  });

const parsed = (args: readonly string[]) => {
  try {
    return parseArgs({ args: [...args], options: OPTIONS }).values;
  } catch (error) {
    // It throws for words that it does not know and for nothing else.
    throw new Refused(error instanceof Error ? error.message : String(error));
  }
};

const campaignAsked = (values: ReturnType<typeof parsed>): Asked => {
  const isGiven = (option: Option): boolean => values[option] !== undefined;
  for (const [option, idle] of Object.entries(IDLE_BESIDE) as [Option, readonly Option[]][]) {
    const other = idle.find(isGiven);
    if (isGiven(option) && other !== undefined)
      throw new Refused(`--${other} would do nothing beside --${option}`);
  }
  const lone = OF_ONE_SEED.find(isGiven);
  if (lone !== undefined && !isGiven('seed')) throw new Refused(`--${lone} goes with --seed ONE`);

  const from = whole(values.from, 1);
  const days = daysAsked(values.days);
  const drawn = (): readonly CampaignTask[] => {
    if (values.months !== undefined) return monthTasks(from, whole(values.months, 1));
    if (values.pairs === true) return pairTasks(from, days);
    if (values.seed === undefined) return swarmTasks(from, whole(values.seeds, SEEDS_USUAL), days);
    return [
      {
        seed: whole(values.seed, 1),
        days,
        twice: true,
        ...(values.pair === undefined ? {} : { pair: injectorsAsked(values.pair) }),
        ...(values['fault-free'] === true ? { faultFree: true as const } : {}),
      },
    ];
  };
  return {
    kind: 'campaign',
    tasks: values.bytes === true ? drawn().map((task) => ({ ...task, bytes: true })) : drawn(),
    output: values.json === true ? 'json' : 'lines',
    missedAlarms: values.months === undefined ? 'allowed' : 'none',
  };
};

/** Reads a command line: nothing of it is passed over in silence. */
export const asked = (args: readonly string[]): Asked => {
  try {
    const values = parsed(args);
    return values.help === true ? { kind: 'help' } : campaignAsked(values);
  } catch (error) {
    if (error instanceof Refused) return { kind: 'refused', why: error.message };
    throw error;
  }
};
