import { itemAt } from '../../src/units/assertion.ts';
import type { PlanTrial } from '../simulated-shed.ts';
import { inParallel } from '../work/pool.ts';
import type { Cost } from './cost.ts';
import { QUICK_ROOM, type SettingsJob, type TuneTask } from './tune-job.ts';

/** A plan as the quick judgement leaves it. */
export interface Candidate {
  readonly place: number;
  readonly cost: Cost;
  /** Where below the room of the quick judgement it is given up, and then an upper bound. */
  readonly quickTheta: number;
}

/** How far a search has come; `of` is null where nobody can tell beforehand. */
export type Progress = (what: string, done: number, of: number) => void;

export interface Searching {
  readonly job: SettingsJob;
  readonly startsPerHour: number;
  readonly progress: Progress;
  readonly signal: AbortSignal;
}

const CHUNK = 25;

const chunks = (count: number): readonly TuneTask[] =>
  Array.from({ length: Math.ceil(count / CHUNK) }, (_, chunk) => ({
    kind: 'quick',
    from: chunk * CHUNK,
    until: Math.min(count, (chunk + 1) * CHUNK),
  }));

/** Alike to within what rounding leaves. */
const apart = (a: number, b: number): number => (Math.abs(a - b) < 1e-6 ? 0 : a - b);

/**
 * Fewest starts of the pump first, then least pumping. Of plans that a bound makes alike the one that names the most floods: it comes
 * nearest to what it says, and the other would mean something else under another bound.
 */
export const cheaper = (a: Candidate, b: Candidate): number =>
  apart(a.cost.startsADay, b.cost.startsADay) ||
  apart(a.cost.pumpMinutesADay, b.cost.pumpMinutesADay) ||
  b.place - a.place;

/** Ends a stretch of work early when somebody asks to stop: what has come by then is kept. */
const untilStopped = async (signal: AbortSignal, work: () => Promise<void>): Promise<void> => {
  try {
    await work();
  } catch (error) {
    if (!signal.aborted) throw error;
  }
};

/** Every plan by the quick judgement, without those that start the pump more often in an hour than may be. */
export const candidatesOf = async (searching: Searching): Promise<readonly Candidate[]> => {
  const { job, progress, signal, startsPerHour } = searching;
  const found: Candidate[] = [];
  let looked = 0;
  const tasks = chunks(job.settings.length);
  await untilStopped(signal, async () => {
    for await (const { index, result } of inParallel('tune', job, tasks, { signal })) {
      if (result.kind !== 'quick') continue;
      result.costs.forEach((cost, offset) => {
        if (cost.startsAnHourMost > startsPerHour) return;
        found.push({ place: index * CHUNK + offset, cost, quickTheta: result.thetas[offset] ?? NaN });
      });
      looked += result.costs.length;
      progress('trying plans', looked, job.settings.length);
    }
  });
  return found.toSorted(cheaper);
};

/** The cheapest candidate that the whole model finds safe in every run; null where none is, or nobody waited for it. */
export const cheapestSafe = async (
  { job, progress, signal }: Searching,
  candidates: readonly Candidate[],
): Promise<Candidate | null> => {
  const { wilt } = job.farm.floors;
  const worth = candidates.filter(({ quickTheta }) => quickTheta >= wilt - QUICK_ROOM);
  const tasks: readonly TuneTask[] = worth.map(({ place }) => ({ kind: 'check', place }));
  const safe = worth.map((): boolean | null => null);
  /** The first that is safe, once everything before it is known not to be. */
  const settled = (): number | 'open' => {
    const first = safe.findIndex((isSafe) => isSafe !== false);
    return first === -1 || safe[first] === true ? first : 'open';
  };
  await untilStopped(signal, async () => {
    let checked = 0;
    for await (const { index, result } of inParallel('tune', job, tasks, { signal })) {
      if (result.kind === 'check') safe[index] = result.isSafe;
      checked += 1;
      progress('checking the cheapest', checked, worth.length);
      if (settled() !== 'open') break;
    }
  });
  const first = settled();
  return first === 'open' || first === -1 ? null : itemAt(worth, first);
};

/** Every run of the whole model for some plans; of a plan that nobody waited for, none. */
export const wholeRuns = async (
  { job, progress, signal }: Searching,
  places: readonly number[],
  traced: (place: number) => boolean,
): Promise<ReadonlyMap<number, readonly PlanTrial[]>> => {
  const runs = job.draws + 1;
  const tasks = places.flatMap((place): readonly TuneTask[] =>
    Array.from({ length: runs }, (_, run) => ({ kind: 'whole', place, run, traced: traced(place) })),
  );
  const trials = new Map<number, PlanTrial[]>();
  let done = 0;
  await untilStopped(signal, async () => {
    for await (const { index, result } of inParallel('tune', job, tasks, { signal })) {
      if (result.kind !== 'whole') continue;
      const place = itemAt(places, Math.floor(index / runs));
      const ofPlace = trials.get(place) ?? [];
      ofPlace[index % runs] = result.trial;
      trials.set(place, ofPlace);
      done += 1;
      progress('running the choices', done, tasks.length);
    }
  });
  // A plan with a run missing tells nothing of its worst one.
  return new Map([...trials].filter(([, ofPlace]) => Object.keys(ofPlace).length === runs));
};
