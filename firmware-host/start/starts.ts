import { join } from 'node:path';
import { z } from 'zod';
import { isPlausible } from '../../src/time/clock-trust.ts';
import {
  minutesBetween,
  monotonicMillis,
  wallMillis,
  type MonotonicMillis,
  type Now,
} from '../../src/time/instant.ts';
import { readWhole } from '../storage/atomic-file.ts';
import { writeFirst } from '../storage/write-in-time.ts';

/** So many starts within so long, none of which ended by a stop that was asked for, are a crash loop (fault 3). */
const LOOP = { starts: 3, minutes: 10 } as const;
/**
 * So many after one another none of which lasted those minutes are one too, where no clock tells how far apart they were: each
 * is of another start of the machine, as with a load that brings its supply down. More of them, since mains that come back for
 * some minutes a few times in an evening look alike. Engineering judgement, no source.
 */
const UNDATED_STARTS = 5;
/** More are not kept; the newest count. */
const KEPT_MAX = 20;

export const startSchema = z.object({
  /** The kernel's name for the time since the machine was started. */
  boot: z.string().nullable(),
  monotonic: z.number().transform(monotonicMillis),
  wall: z.union([z.literal('unknown'), z.number().transform(wallMillis)]),
});
const file = z.object({ starts: z.array(startSchema).max(KEPT_MAX) });

/** One start of the host. */
export type Start = z.infer<typeof startSchema>;

const isSameBoot = (earlier: Start, now: Start): boolean =>
  earlier.boot !== null && earlier.boot === now.boot;

/** Whether an earlier start is known to lie less than so many minutes back. */
export const isWithin = (minutes: number, earlier: Start, now: Start): boolean => {
  if (isSameBoot(earlier, now)) {
    const ago = minutesBetween(earlier.monotonic, now.monotonic);
    return ago >= 0 && ago < minutes;
  }
  // A power cut is no crash, but a defect that takes the machine with it is one.
  if (!isPlausible(earlier.wall) || !isPlausible(now.wall)) return false;
  const ago = (now.wall - earlier.wall) / 60_000;
  return ago >= 0 && ago < minutes;
};

/** Whether nobody can tell how far back an earlier start lies. */
const isUndated = (earlier: Start, now: Start): boolean =>
  !isSameBoot(earlier, now) && (!isPlausible(earlier.wall) || !isPlausible(now.wall));

const isOfLate = (earlier: Start, now: Start): boolean => isWithin(LOOP.minutes, earlier, now);

/** The starts since one that lasted, or the last clean stop, that may be a loop with this one, and this one. */
const loopWith = (before: readonly Start[], now: Start): readonly Start[] =>
  [...before.filter((earlier) => isOfLate(earlier, now) || isUndated(earlier, now)), now].slice(-KEPT_MAX);

export interface Counted {
  /** With this one, since the last clean stop: within ten minutes, or those that make a loop without a clock. */
  readonly starts: number;
  /** Why the host leaves out what floods and calls do not need, in words for a person; null when it runs as always. */
  readonly safeMode: string | null;
  /** Why starts cannot be counted; null when they are. */
  readonly uncounted: string | null;
}

const startsFile = (folder: string): string => join(folder, 'starts.json');

const read = async (folder: string): Promise<readonly Start[]> => {
  try {
    const text = await readWhole(startsFile(folder));
    const parsed = text === null ? null : file.safeParse(JSON.parse(text));
    return parsed?.success === true ? parsed.data.starts : [];
  } catch {
    // What cannot be read counts for nothing: the host must start.
    return [];
  }
};

/** Why not, where none takes it. */
const write = (folders: readonly string[], starts: readonly Start[]): Promise<string | null> =>
  writeFirst(folders.map(startsFile), `${JSON.stringify({ starts })}\n`);

/** A folder in memory beside the state folder, which also takes a file when the disk is read-only (systemd.exec(5)). */
export const startFolders = (stateFolder: string, env: NodeJS.ProcessEnv): readonly string[] => {
  const runtime = env['RUNTIME_DIRECTORY'] ?? env['XDG_RUNTIME_DIR'];
  const [first] = (runtime ?? '').split(':');
  return first === undefined || first === '' ? [stateFolder] : [stateFolder, join(first, 'rillkeeper')];
};

const isSame = (one: Start, other: Start): boolean =>
  one.boot === other.boot && one.monotonic === other.monotonic && one.wall === other.wall;

/** What both folders say: an older tale was left on a disk that became read-only, and the starts since are in memory alone. */
const known = async (folders: readonly string[], now: Start): Promise<readonly Start[]> => {
  const tales = await Promise.all(folders.map(read));
  const whole = tales.reduce(
    (told, tale) => [...told, ...tale.filter((start) => !told.some((one) => isSame(one, start)))],
    [],
  );
  return loopWith(whole, now);
};

/** `now` has no wall time where nothing is known to have set the clock: that goes on from the last time on the disk, start after start. */
export const startNow = (boot: string | null, now: Now): Start => ({ boot, ...now });

/** Counts this start. Never throws, nor waits for long: a disk that takes nothing, or hangs, must not keep the pump from running. */
export const countStart = async (folders: readonly string[], now: Start): Promise<Counted> => {
  const [own, others] = [folders.slice(0, 1), folders.slice(1)];
  const starts = await known(folders, now);
  const dated = starts.filter((start) => start === now || isOfLate(start, now));
  const refused = await write(own, starts);
  // A disk that takes nothing shows the same old starts after each start of the machine, however long those lasted.
  const uncounted = refused === null || others.length === 0 ? refused : await write(others, dated);
  const ofLate = dated.length;
  if (ofLate >= LOOP.starts) {
    const safeMode = `this host has started ${ofLate} times within ${LOOP.minutes} min without being asked to stop`;
    return { starts: ofLate, safeMode, uncounted };
  }
  if (refused === null && starts.length >= UNDATED_STARTS) {
    const safeMode = `of the last ${starts.length} starts of this host none is known to have lasted ${LOOP.minutes} min`;
    return { starts: starts.length, safeMode, uncounted };
  }
  return { starts: ofLate, safeMode: null, uncounted };
};

/** The host ends because it was asked to: what went before is no loop. */
export const countCleanStop = async (folders: readonly string[]): Promise<void> => {
  // Both, or the tale that was left behind would count.
  await Promise.all(folders.map((folder) => write([folder], [])));
};

/** To be told the time: once the host has run for as long as a loop is looked for, this start is in none, nor is one before it. */
export const lastingStart = (
  folders: readonly string[],
  since: MonotonicMillis,
): ((now: MonotonicMillis) => void) => {
  let isTold = false;
  return (now) => {
    if (isTold || minutesBetween(since, now) < LOOP.minutes) return;
    isTold = true;
    void countCleanStop(folders);
  };
};
