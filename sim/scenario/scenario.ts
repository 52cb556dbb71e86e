import type { Farm } from '../../src/farm/farm.ts';
import { dayAfter, localClockInstant, type LocalDay } from '../../src/time/local-day.ts';
import type { Fault, FaultKind } from '../faults/fault.ts';
import { unfittedFor } from '../faults/unfitted.ts';
import { withSeedlings } from './seedlings.ts';
import type { WorstStart } from './worst-start.ts';

/** When things may go wrong in a scenario. */
export interface ScenarioTime {
  /** The first day. */
  readonly day: LocalDay;
  /** The flood of that day without which a bench lasts shortest; asked for only where it is needed. */
  readonly worstStart: () => WorstStart;
}

/** A rehearsal that somebody has thought of before. */
export interface Scenario {
  readonly says: string;
  readonly days: number;
  /** Played on the hot day of the farm file, also where that names a weather record: of January it would be none. */
  readonly hotDay?: true;
  /** Warmer days throughout, on top of the weather that was asked for. */
  readonly heatWaveCelsius?: number;
  readonly faults: (when: ScenarioTime) => readonly Fault[];
  readonly farm?: (farm: Farm, day: LocalDay) => Farm;
  /** What the farm has not and would have to have; null where the scenario can be played. */
  readonly lacks?: (farm: Farm) => string | null;
}

const HOUR = 60;

const clock = (day: LocalDay, hour: number): number => localClockInstant(day, hour * HOUR);

/** From an hour of the first day on, not mended. */
const from =
  (kind: FaultKind, hour: number) =>
  ({ day }: ScenarioTime): readonly Fault[] => [
    { kind, fromMillis: clock(day, hour), untilMillis: Infinity },
  ];
const nothing = (): readonly Fault[] => [];

export const SCENARIOS = {
  'hot-afternoon': {
    says: 'one hot day, nothing broken',
    days: 1,
    hotDay: true,
    faults: nothing,
  },
  'heat-wave': {
    says: 'five days, each 5 °C warmer, nothing broken',
    days: 5,
    heatWaveCelsius: 5,
    faults: nothing,
  },
  'pump-dead-worst': {
    says: 'the pump dies just before the flood that is missed the most',
    days: 1,
    faults: ({ worstStart }) => [
      { kind: 'pump-dead', fromMillis: worstStart().atMillis - 1000, untilMillis: Infinity },
    ],
  },
  'power-cut-night': {
    says: 'the mains are gone from 22:00 to 6:00',
    days: 1,
    faults: ({ day }) => [
      { kind: 'mains-lost', fromMillis: clock(day, 22), untilMillis: clock(dayAfter(day), 6) },
    ],
  },
  'clogging-filter': {
    says: 'a filter that nobody cleans for three weeks',
    days: 21,
    faults: from('filter-clogging', 0),
  },
  'inlet-blocked': {
    says: 'the bench that lasts shortest gets no water from 9:00 on',
    days: 1,
    faults: ({ day, worstStart }) => [
      {
        kind: 'inlet-blocked',
        fromMillis: clock(day, 9),
        untilMillis: Infinity,
        bench: worstStart().bench,
      },
    ],
    lacks: (farm) => unfittedFor(farm, 'inlet-blocked'),
  },
  'branch-clogging': {
    says: 'the inlet of the bench that lasts shortest clogs over a week',
    days: 7,
    faults: ({ day, worstStart }) => [
      {
        kind: 'branch-clogging',
        fromMillis: clock(day, 0),
        untilMillis: Infinity,
        bench: worstStart().bench,
        clogging: { endShare: 0.05, days: 7 },
      },
    ],
    lacks: (farm) => unfittedFor(farm, 'branch-clogging'),
  },
  'float-stuck': {
    says: 'the tank float reads low from 9:00 on, in a full tank',
    days: 1,
    faults: from('float-stuck-low', 9),
    lacks: (farm) => unfittedFor(farm, 'float-stuck-low'),
  },
  leak: { says: 'a litre a minute leaves the tank from 9:00 on', days: 1, faults: from('leak', 9) },
  'salty-top-up': {
    says: 'five days of top-up with 2 mS/cm more than usual',
    days: 5,
    faults: from('top-up-salty', 0),
  },
  'probe-drift': {
    says: 'three weeks of dosing by a probe that reads two per cent less each day',
    days: 21,
    faults: from('probe-drifting', 0),
  },
  'seedlings-first-week': {
    says: 'a week of seedlings, set into the first planted bench when two days old',
    days: 7,
    faults: nothing,
    farm: withSeedlings,
    lacks: ({ benches }) =>
      benches[0]?.plants === 0 ? 'places for seedlings on the first bench (benches: plants)' : null,
  },
  'water-shortage': {
    says: 'three days on which no water comes into the tank',
    days: 3,
    faults: from('top-up-stopped', 0),
  },
} as const satisfies Readonly<Record<string, Scenario>>;

export type ScenarioName = keyof typeof SCENARIOS;

export const isScenarioName = (text: string): text is ScenarioName => Object.hasOwn(SCENARIOS, text);

export const scenarioOf = (name: ScenarioName): Scenario => SCENARIOS[name];
