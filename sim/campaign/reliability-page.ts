import type { FaultRow } from '../faults/fault-row.ts';
import { INJECTORS, type InjectorName } from '../faults/injectors.ts';
import { FAULT_ROWS, FAULT_TABLE } from '../faults/table.ts';
import type { CampaignSum } from './sum.ts';

/** Of what a campaign came to, what stands on the page. */
type Figures = Omit<CampaignSum, 'recoveriesJudged'>;

/** The figures of the last campaign that somebody has written down, with the day. */
export interface LastCampaign {
  readonly swarm: Omit<Figures, 'hits'> & {
    /** Of the injectors that there were on that day. */
    readonly hits: Readonly<Partial<Record<InjectorName, number>>>;
  };
  /** Fewer seeds, each of a month. */
  readonly long: Figures | null;
  /** Every two injectors together once. */
  readonly pairs: Figures | null;
  readonly months: Figures | null;
  /** Seeds through the bytes of the line. */
  readonly bytes: Figures | null;
}

const cell = (text: string): string => text.replaceAll('|', '\\|');

const injectorsOf = ({ injectors }: FaultRow): string =>
  injectors
    .map((one) => (typeof one === 'string' ? `\`${one}\`` : `\`${one.name}\` in ${one.path}`))
    .join(', ');

const testsOf = ({ tests }: FaultRow): string =>
  tests.map(({ path, title }) => `${path}: “${title}”`).join('; ');

const rowText = (row: FaultRow): string =>
  [
    '',
    String(row.number),
    row.fault,
    row.detection,
    row.reaction,
    row.invariants.join(' '),
    row.layers.join(' '),
    injectorsOf(row),
    testsOf(row),
    '',
  ]
    .map(cell)
    .join(' | ')
    .trim();

const HEAD = [
  '| F | Fault | Seen by | What is done | Invariant | Layer | Injector | Test |',
  '| --- | --- | --- | --- | --- | --- | --- | --- |',
];

const swarmText = ({ swarm }: LastCampaign): readonly string[] => [
  `The last campaign that was written down ran ${swarm.seeds} seeds, ${swarm.days} simulated days and ${swarm.floods} floods, each seed with three overlapping faults or more, then a last third without any. It raised ${swarm.alarms} alarms; ${swarm.breached === 0 ? 'no seed' : `${swarm.breached} of the seeds`} broke an invariant; ${swarm.repeated} seeds ran twice, with the same journal to the letter. In ${swarm.unseenWiltings} cases a bench wilted where nothing that was fitted and whole could have told in half of the time: those are what a walk is for. ${swarm.thirstyBenches} more wilted under a plan that is too dry for those plants with nothing broken as well: those are what a rehearsal is for.`,
  '',
  'Seeds in which each injector truly changed something:',
  '',
  '| Injector | Seeds |',
  '| --- | --- |',
  ...INJECTORS.map((name) => `| \`${name}\` | ${swarm.hits[name] ?? 'newer than that campaign'} |`),
];

const brokeText = (breached: number): string => (breached === 0 ? 'none' : String(breached));

const longText = ({ long }: LastCampaign): string =>
  long === null
    ? 'Seeds of a month with faults have not been written down yet.'
    : `Of a month each, ${long.seeds} seeds ran ${long.days} days and ${long.floods} floods; ${brokeText(long.breached)} broke an invariant.`;

const pairsText = ({ pairs }: LastCampaign): string =>
  pairs === null
    ? 'Every two injectors together have not been written down yet.'
    : `Every two injectors together, ${pairs.seeds} pairs over ${pairs.days} days and ${pairs.floods} floods, with others as the seed draws them; ${brokeText(pairs.breached)} broke an invariant.`;

const monthsText = ({ months }: LastCampaign): string =>
  months === null
    ? 'Fault-free months have not been written down yet.'
    : `In ${Math.round(months.days / 30)} fault-free months with the noise of cheap sensors, ${months.floods} floods, ${months.missedAlarms} alarms of a missed flood were raised; ${brokeText(months.breached)} broke an invariant. In them ${months.thirstyBenches} benches wilted under a plan that is too dry for those plants.`;

const bytesText = ({ bytes }: LastCampaign): string =>
  bytes === null
    ? 'Seeds through the bytes of the line have not been written down yet.'
    : `Through the bytes of the line, a look a second, ${bytes.seeds} seeds ran ${bytes.days} days and ${bytes.floods} floods; ${brokeText(bytes.breached)} broke an invariant.`;

const AIR_TEXT =
  'Rests are held against the day plan at the true air; a thermometer that is silent, open, stuck, full of garbage or wrong by a jump that could be seen must bring the shortest rests, while one that is slow, late, in the sun, or wrong by what the air may well be cannot be found out by any host, and what follows from it is not judged.';

/** `docs/reliability.md`, made from the fault table and the figures of a campaign. */
export const reliabilityPage = (last: LastCampaign): string =>
  [
    '# What can go wrong, and how that is known to be survived',
    '',
    'Made by `npm run reliability` from `sim/faults/table.ts` and the figures of the last campaign; do not edit it by hand.',
    `Each of the ${FAULT_ROWS.length} faults has an injector and a test that is named; what a reaction cannot do stands in its row or its test.`,
    '',
    '## The campaign',
    '',
    ...swarmText(last),
    '',
    longText(last),
    '',
    pairsText(last),
    '',
    monthsText(last),
    '',
    bytesText(last),
    '',
    AIR_TEXT,
    '',
    ...FAULT_TABLE.flatMap(({ group, rows }) => [`## ${group}`, '', ...HEAD, ...rows.map(rowText), '']),
  ].join('\n');
