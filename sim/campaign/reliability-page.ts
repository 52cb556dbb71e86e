import type { FaultRow } from '../faults/fault-row.ts';
import { INJECTORS, type InjectorName } from '../faults/injectors.ts';
import { FAULT_ROWS, FAULT_TABLE } from '../faults/table.ts';
import type { CampaignSum } from './sum.ts';

/** The figures of the last campaign that somebody has written down, with the day. */
export interface LastCampaign {
  readonly swarm: Omit<CampaignSum, 'hits'> & {
    /** Of the injectors that there were on that day. */
    readonly hits: Readonly<Partial<Record<InjectorName, number>>>;
  };
  readonly months: CampaignSum | null;
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
    injectorsOf(row) || '–',
    testsOf(row) || '–',
    row.open ?? '',
    '',
  ]
    .map(cell)
    .join(' | ')
    .trim();

const HEAD = [
  '| F | Fault | Seen by | What is done | Invariant | Layer | Injector | Test | Missing |',
  '| --- | --- | --- | --- | --- | --- | --- | --- | --- |',
];

const swarmText = ({ swarm }: LastCampaign): readonly string[] => [
  `The last campaign that was written down ran ${swarm.seeds} seeds, ${swarm.days} simulated days and ${swarm.floods} floods, each seed with three overlapping faults or more, then a last third without any. It raised ${swarm.alarms} alarms; ${swarm.breached} seeds broke an invariant, which \`tests/campaign/swarm.test.ts\` names and which is not mended yet; ${swarm.repeated} seeds ran twice, with the same journal to the letter where none of these is told as broken. In ${swarm.unseenWiltings} cases a bench wilted where nothing that was fitted and whole could have told: those are what a walk is for.`,
  '',
  'Seeds in which each injector truly changed something:',
  '',
  '| Injector | Seeds |',
  '| --- | --- |',
  ...INJECTORS.map((name) => `| \`${name}\` | ${swarm.hits[name] ?? 'newer than that campaign'} |`),
];

const monthsText = ({ months }: LastCampaign): string =>
  months === null
    ? 'Fault-free months have not been written down yet.'
    : `In ${Math.round(months.days / 30)} fault-free months with the noise of cheap sensors, ${months.floods} floods, ${months.missedAlarms} alarms of a missed flood were raised.`;

/** `docs/reliability.md`, made from the fault table and the figures of a campaign. */
export const reliabilityPage = (last: LastCampaign): string =>
  [
    '# What can go wrong, and how that is known to be survived',
    '',
    'Made by `npm run reliability` from `sim/faults/table.ts` and the figures of the last campaign; do not edit it by hand.',
    `Of ${FAULT_ROWS.length} faults ${FAULT_ROWS.filter(({ open }) => open === undefined).length} have nothing missing. The others say what is.`,
    '',
    '## The campaign',
    '',
    ...swarmText(last),
    '',
    monthsText(last),
    '',
    ...FAULT_TABLE.flatMap(({ group, rows }) => [`## ${group}`, '', ...HEAD, ...rows.map(rowText), '']),
  ].join('\n');
