import type { Rehearsal } from '../../../firmware-host/cli/rehearsal.ts';
import {
  adviceOn,
  CENTRAL,
  faultCall,
  judgeRehearsal,
  type Fault,
  type Outcome,
} from '../../../firmware-host/simulated-shed.ts';
import type { Priority } from '../../../src/alarm/card.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import type { Entry } from '../../../src/journal/entry.ts';
import { localDayOn } from '../../../src/time/local-day.ts';
import { monotonicMillis, wallMillis } from '../../../src/time/instant.ts';
import { exampleFarm } from '../../support/farm.ts';

export const day = localDayOn('2026-07-15', 'Europe/Lisbon');

/** A moment of that day, or of the next, by the clocks of Lisbon. */
export const clock = (text: string, date = '2026-07-15'): number => Date.parse(`${date}T${text}:00+01:00`);

export const fault = (from: string, until?: string): Fault => ({
  kind: 'pump-dead',
  fromMillis: clock(from),
  untilMillis: until === undefined ? Infinity : clock(until),
});

/** What matters of a run to its verdict; the rest is an ordinary wet day. */
export interface MadeRun {
  /** By place of the bench. */
  readonly wilts?: Readonly<Record<number, number>>;
  readonly alarms?: readonly (readonly [at: number, priority: Priority])[];
  readonly missedTheta?: number;
  readonly tankLitresLowest?: number;
  readonly tankStrongest?: number;
  readonly tankWeakest?: number;
  readonly belowStressMinutes?: number;
  readonly oxygen?: number;
  readonly warmest?: number;
  readonly strongest?: number | null;
}

const alarm = ([at, priority]: readonly [number, Priority]): Entry => ({
  kind: 'alarm-raised',
  alarm: priority === 'high' ? 'missed-flood' : 'weak-flow',
  priority,
  text: `An alarm of ${priority} priority, and where to look first.`,
  at: monotonicMillis(at),
  wall: wallMillis(at),
});

const moment = (farm: Farm, atMillis: number, theta: number): Outcome['moments'][number] => ({
  atMillis,
  thetas: farm.benches.map(() => theta),
  waterCelsius: farm.benches.map(() => 25),
  oxygenMilligramsPerLitre: farm.benches.map(() => 6),
  strengths: farm.benches.map(() => 1.6),
  tankLitres: 500,
  tankCelsius: 24,
  tankStrength: 1.6,
});

export const outcome = (farm: Farm, run: MadeRun): Outcome => ({
  draw: 'central',
  judgements: CENTRAL,
  benches: farm.benches.map((_, place) => ({
    lowest: { value: 0.619, atMillis: clock('13:00') },
    warmest: { value: run.warmest ?? 29.4, atMillis: clock('15:00') },
    lowestOxygen: { value: run.oxygen ?? 3.2, atMillis: clock('05:40') },
    strongest: run.strongest === undefined ? 1.8 : run.strongest,
    wiltedAtMillis: run.wilts?.[place] ?? null,
    belowStressMinutes: run.belowStressMinutes ?? 0,
    drunkLitres: 50,
    longestRestMinutes: 168,
    timeLeft: { minutes: 71.9, failedAtMillis: clock('13:19') },
    oneMiss: { theta: run.missedTheta ?? 0.4, missedAtMillis: clock('13:19') },
  })),
  pumpMinutes: 450,
  drunkLitres: 200,
  strength: { start: 1.6, end: 1.4, weakest: run.tankWeakest ?? 1.3, strongest: run.tankStrongest ?? 1.7 },
  tankLitresLowest: run.tankLitresLowest ?? 400,
  entries: (run.alarms ?? []).map(alarm),
  moments: [moment(farm, day.start, 1), moment(farm, clock('12:00'), 0.15)],
  pumpRuns: [{ fromMillis: clock('06:00'), untilMillis: clock('06:20') }],
});

export const rehearsalOf = (
  runs: readonly MadeRun[],
  faults: readonly Fault[] = [],
  farm: Farm = exampleFarm,
): Rehearsal => {
  const outcomes = runs.map((run) => outcome(farm, run));
  const verdict = judgeRehearsal(farm, outcomes, faults);
  return {
    farm,
    scenario: null,
    day,
    days: 1,
    endMillis: day.end,
    weather: 'a made day',
    seed: 1,
    faults,
    call: faultCall(farm, outcomes, faults),
    outcomes,
    verdict,
    advice: adviceOn(farm, outcomes, verdict, faults),
  };
};
