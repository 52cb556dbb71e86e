import { textDiff } from '../../../firmware-host/farm-file/text-diff.ts';
import type { Asked } from '../../../firmware-host/cli/tune-text.ts';
import { UNCHANGED, type Moment, type PlanTrial } from '../../../firmware-host/simulated-shed.ts';
import { judgedOf, type Choice } from '../../../firmware-host/tune/choices.ts';
import { limitOf } from '../../../firmware-host/tune/limit.ts';
import type { PlanSetting } from '../../../firmware-host/tune/setting.ts';
import type { Tuned } from '../../../firmware-host/tune/tuned.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { localDayOn } from '../../../src/time/local-day.ts';
import { exampleFarm } from '../../support/farm.ts';

const DATE = '2026-07-15';
const MOMENTS = 288;
const FIVE_MINUTES = 300_000;

/** One plan of a made search: its floods in the night, and the margin in points of each run. */
export interface MadeChoice {
  readonly floods: number;
  readonly minutes: number;
  /** Null: the whole model has not run it. */
  readonly margins: readonly number[] | null;
}

export interface MadeSearch {
  readonly farm?: Farm;
  readonly choices: readonly MadeChoice[];
  /** Places among the choices. */
  readonly smallest: number | null;
  readonly present: number | null;
  /** Of the smallest plan: held share of bench 2 by run, through all moments; the others hold 0.9. */
  readonly held?: readonly number[];
  readonly elsewhereTheta?: number;
  readonly lostMinuteOfDay?: number;
  readonly wasStopped?: boolean;
}

const momentsOf = (farm: Farm, held: number): readonly Moment[] => {
  const { start } = localDayOn(DATE, farm.place.timeZone);
  return Array.from({ length: MOMENTS }, (_, place) => ({
    atMillis: start + place * FIVE_MINUTES,
    thetas: farm.benches.map((_bench, bench) => (bench === 1 ? held : 0.9)),
    waterCelsius: farm.benches.map(() => 25),
    oxygenMilligramsPerLitre: farm.benches.map((_bench, bench) => (bench === 2 ? 4.5 : 6)),
    strengths: farm.benches.map(() => 1.6),
    tankLitres: 500,
    tankCelsius: 24,
    tankStrength: 1.6,
  }));
};

/** A search that nobody has run. */
export const madeSearch = (made: MadeSearch): { readonly asked: Asked; readonly found: Tuned } => {
  const farm = made.farm ?? exampleFarm;
  const night = farm.dayPlan.findIndex(({ name }) => name === 'night');
  const settings = made.choices.map(({ floods, minutes }): PlanSetting => ({
    parts: farm.dayPlan.map((_, place) =>
      place === night ? { floodMinutes: minutes, pace: { kind: 'number', floods } } : null,
    ),
    restPercentPerDegree: null,
  }));
  const job: Asked['job'] = {
    farm,
    source: { kind: 'hot-day' },
    changes: UNCHANGED,
    date: DATE,
    days: 1,
    draws: 4,
    seed: 7,
    tuned: [night],
    pumpShare: 1,
    lostMinuteOfDay: made.lostMinuteOfDay ?? null,
    settings,
  };
  const choices = made.choices.map(({ floods, minutes, margins }, place): Choice => {
    const trials = margins?.map((margin, run): PlanTrial => {
      const theta = farm.floors.wilt + margin / 100;
      const held = made.held?.[run];
      return {
        lowestTheta: theta,
        missedTheta: theta,
        lowestOxygen: 4.5,
        warmestCelsius: 27,
        elsewhereTheta: made.elsewhereTheta ?? 0.5,
        moments: place === made.smallest && held !== undefined ? momentsOf(farm, held) : [],
      };
    });
    return {
      setting: settings[place]!,
      candidate: {
        place,
        quickTheta: 0.5,
        cost: {
          floods,
          startsADay: floods + 18,
          pumpMinutesADay: 360 + floods * minutes,
          startsAnHourMost: 3,
          longestRestMinutes: 200,
        },
      },
      kilowattHoursADay: 1.5 + floods / 100,
      judged: trials === undefined ? null : judgedOf(job, trials),
    };
  });
  const smallest = made.smallest === null ? null : choices[made.smallest]!;
  return {
    asked: {
      farm,
      job,
      weather: 'a made day',
      weeks: [{ date: '2026-07-22', weather: 'a made day', setting: null, floods: null }],
      diff: smallest === null ? '' : textDiff('farm.yaml', 'floods: 4\n', 'floods: 3 # <few>\n'),
      isWhatIf: false,
    },
    found: {
      choices,
      smallest,
      present: made.present === null ? null : choices[made.present]!,
      limit: smallest === null ? null : limitOf(choices, smallest),
      tried: choices.length,
      plans: 12,
      wasStopped: made.wasStopped ?? false,
    },
  };
};

/** Two floods fail, three are safe, four are what the farm file has. */
export const ORDINARY: MadeSearch = {
  choices: [
    { floods: 2, minutes: 20, margins: [6, -3, 9, -1, 4] },
    { floods: 3, minutes: 20, margins: [12, 4, 15, 8, 10] },
    { floods: 3, minutes: 30, margins: [14, 5, 16, 9, 12] },
    { floods: 4, minutes: 20, margins: [20, 11, 25, 16, 18] },
  ],
  smallest: 1,
  present: 3,
  held: [0.7, 0.5, 0.8, 0.6, 0.65],
};
