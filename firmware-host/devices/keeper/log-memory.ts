import type { KeptRun, Press } from '../../../src/ports/board.ts';
import { afterSeconds, secondsBetween, type MonotonicMillis } from '../../../src/time/instant.ts';
import { bootOf } from './board-clock.ts';
import { entriesBetween, LOG_HELD_MAX, LOG_NUMBERS, type LogEntry, type Logged } from './log.ts';
import type { Heard } from './heard.ts';

/** What this host has read of a board's log; outlives the line on which it was read. */
export interface LogMemory {
  /** Number of the first entry that has not been read; null before the first contact. */
  readonly next: number | null;
  /** What was last heard of the board's life, to tell a reset from a loss of power. */
  readonly before: {
    readonly heard: MonotonicMillis;
    readonly epoch: number;
    readonly uptime: number;
    readonly resets: number;
  } | null;
  /** Runs and gaps that have not been told to anybody. */
  readonly runs: readonly KeptRun[];
  readonly forgotten: number;
  /** Before the first entry is read nobody knows what there was to forget. */
  readonly gaps: 'count' | 'unknown';
  /** Whether the pump was this host's at the last entry read; `claimed`: it is, once an entry says so. */
  readonly owned: 'no' | 'claimed' | 'yes';
}

export const NO_LOG: LogMemory = {
  next: null,
  before: null,
  runs: [],
  forgotten: 0,
  gaps: 'unknown',
  owned: 'no',
};

/** Half a day of floods and more; older ones go first. */
const RUNS_MAX = 200;
/** A press that is found later is left alone: nobody expects water any more, and hands may be in it. */
const PRESS_SECONDS_MAX = 15;
/** Go round here. */
const EPOCHS = 0x1_0000;
/** Between two looks at a board: whole seconds, and clocks that differ by more than any that still runs a shed. */
const UPTIME_TOLERANCE = { seconds: 10, share: 0.1 } as const;

const lostPower = ({ before, next }: LogMemory, { status, at }: Heard): boolean => {
  if (before === null || next === null) return false;
  // Its numbers begin anew.
  const entries = entriesBetween(next, status.logNext);
  if (entries < 0) return true;
  // Each step of the epoch has an entry, but for the leap that it makes where the power was lost.
  if ((status.epoch - before.epoch + EPOCHS) % EPOCHS > entries) return true;
  const away = secondsBetween(before.heard, at);
  const least = before.uptime + away * (1 - UPTIME_TOLERANCE.share) - UPTIME_TOLERANCE.seconds;
  return status.uptimeSeconds < least && status.resets <= before.resets;
};

/** Where reading begins, by a status of a board that was not heard for a while. */
export const reconciled = (memory: LogMemory, heard: Heard): LogMemory => {
  if (memory.next !== null && !lostPower(memory, heard)) return memory;
  // The board gives the oldest that it has when asked for older ones.
  const oldest = (heard.status.logNext - LOG_HELD_MAX + LOG_NUMBERS) % LOG_NUMBERS;
  return { ...memory, next: oldest, gaps: 'unknown', owned: 'no' };
};

export const remembering = (memory: LogMemory, { status, at }: Heard): LogMemory => ({
  ...memory,
  before: { heard: at, epoch: status.epoch, uptime: status.uptimeSeconds, resets: status.resets },
});

export interface LogRead {
  readonly memory: LogMemory;
  readonly presses: readonly Press[];
}

const runOf = ({ atSeconds, logged }: LogEntry, boot: MonotonicMillis): readonly KeptRun[] => {
  if (logged.kind !== 'run') return [];
  const { verdict, begunBy, endedBy, seconds } = logged;
  return [{ startedAt: afterSeconds(boot, atSeconds), seconds, begunBy, endedBy, verdict }];
};

const ownedAfter = (owned: LogMemory['owned'], { logged }: LogEntry): LogMemory['owned'] => {
  if (logged.kind === 'owner' && logged.owner === 'host') return owned === 'claimed' ? 'yes' : owned;
  const ends = logged.kind === 'owner' || logged.kind === 'reset';
  return ends && owned === 'yes' ? 'no' : owned;
};

const pressOf = (logged: Logged & { readonly kind: 'button' }, age: number): Press =>
  logged.press === 'short' ? 'short' : { heldSeconds: Math.max(0, logged.heldSeconds - age) };

/** What an answer of the board adds; entries that were read before are not read again. */
export const readEntries = (
  memory: LogMemory,
  first: number,
  entries: readonly LogEntry[],
  heard: Heard,
): LogRead => {
  const { next } = memory;
  if (next === null) return { memory, presses: [] };
  const gap = entriesBetween(next, first);
  const fresh = gap < 0 ? entries.slice(-gap) : entries;
  const missed = memory.gaps === 'unknown' ? 0 : Math.max(0, gap);
  const boot = bootOf({ uptimeSeconds: heard.status.uptimeSeconds, at: heard.at });
  let owned = memory.owned;
  const presses: Press[] = [];
  for (const entry of fresh) {
    owned = ownedAfter(owned, entry);
    const age = heard.status.uptimeSeconds - entry.atSeconds;
    if (entry.logged.kind === 'button' && owned === 'yes' && age <= PRESS_SECONDS_MAX)
      presses.push(pressOf(entry.logged, age));
  }
  return {
    memory: {
      ...memory,
      owned,
      gaps: 'count',
      next: (first + entries.length) % LOG_NUMBERS,
      runs: [...memory.runs, ...fresh.flatMap((entry) => runOf(entry, boot))].slice(-RUNS_MAX),
      forgotten: memory.forgotten + missed,
    },
    presses,
  };
};

/** Nothing more to read for a status that says so. */
export const isReadTo = ({ next }: LogMemory, logNext: number): boolean =>
  next !== null && entriesBetween(next, logNext) === 0;

/** After all has been told. */
export const told = (memory: LogMemory): LogMemory => ({ ...memory, runs: [], forgotten: 0 });
