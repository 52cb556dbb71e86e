import type { Candidate } from '../../../firmware-host/tune/search.ts';
import { judgedOf, type Choice } from '../../../firmware-host/tune/choices.ts';
import type { PlanTrial } from '../../../firmware-host/simulated-shed.ts';
import type { SettingsJob } from '../../../firmware-host/tune/tune-job.ts';
import { byNumber, jobWith, NIGHT, settingOf } from '../../support/tune-jobs.ts';

export const madeTrial = (change: Partial<PlanTrial> = {}): PlanTrial => ({
  lowestTheta: 0.6,
  missedTheta: 0.4,
  lowestOxygen: 6,
  warmestCelsius: 25,
  elsewhereTheta: 0.5,
  moments: [],
  ...change,
});

export const madeCandidate = (
  place: number,
  startsADay: number,
  quickTheta = 0.5,
  pumpMinutesADay = startsADay * 20,
): Candidate => ({
  place,
  quickTheta,
  cost: { floods: startsADay, startsADay, pumpMinutesADay, startsAnHourMost: 2, longestRestMinutes: 120 },
});

/** One plan for each pair: so many floods at night, so many minutes long. */
export const jobOf = (...plans: readonly (readonly [floods: number, minutes: number])[]): SettingsJob =>
  jobWith({ settings: plans.map(([floods, minutes]) => settingOf({ [NIGHT]: byNumber(floods, minutes) })) });

export const madeChoice = (
  job: SettingsJob,
  candidate: Candidate,
  trials: readonly PlanTrial[] | null,
): Choice => ({
  setting: job.settings[candidate.place]!,
  candidate,
  kilowattHoursADay: 1,
  judged: trials === null ? null : judgedOf(job, trials),
});
