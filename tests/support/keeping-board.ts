import type { BoardCommand, Kept, KeptRun } from '../../src/ports/board.ts';
import type { Sample } from '../../src/ports/sample.ts';
import { monotonicMillis, type MonotonicMillis } from '../../src/time/instant.ts';

/** A stand-in for a board that keeps the plants: the rules of docs/board-protocol.md that a host can feel, in 1 s steps. */

const SECOND = 1000;
const MINUTE = 60 * SECOND;
const LEASE_SECONDS = 10;
const SETTLE_SECONDS = 15;
/** How long water needs to the meter on the common return, and how long it runs on after a stop. */
const WATER_SECONDS = { comes: 180, goes: 240 } as const;

export interface KeepingBoardSetup {
  readonly restSeconds: number;
  readonly floodSeconds: number;
  readonly longestOnSeconds: number;
  readonly shortestOffSeconds: number;
  readonly startMillis: number;
}

interface Run {
  readonly startedAt: number;
  readonly begunBy: 'board' | 'host';
  until: number;
}

/** A run of the pump as it truly was. */
export interface TrueRun {
  readonly startedAt: number;
  readonly endedAt: number;
}

export interface KeepingBoard {
  readonly advance: (untilMillis: number) => void;
  /** What comes over a line that is whole; false when the board refuses it. */
  readonly command: (command: BoardCommand) => boolean;
  /** From here on nobody is heard; a host that lives has heard of all runs so far, one that begins anew of none. */
  readonly cut: (host: 'stays' | 'dies') => void;
  /** The line is whole again and the host has claimed the pump: what the board tells it. */
  readonly claimed: () => Kept;
  /** Power is lost for an instant: RAM and clock are gone, the relay is let go. */
  readonly powerLost: () => void;
  readonly pressLong: (seconds: number) => void;
  readonly samples: () => readonly Sample[];
  /** All runs of the pump since the start, the one under way with its end so far. */
  readonly runs: () => readonly TrueRun[];
  readonly pumpOn: () => boolean;
}

export const createKeepingBoard = (setup: KeepingBoardSetup): KeepingBoard => {
  let at = setup.startMillis;
  let lineWhole = true;
  let leaseUntil = Infinity;
  let run: Run | null = null;
  let offAt = setup.startMillis - 3600 * SECOND;
  let holdUntil = -Infinity;
  let lastFlood: { readonly startedAt: number; readonly seconds: number } | null = null;
  let floodEndedAt = -Infinity;
  let settledAt: number | null = null;
  let told: KeptRun[] = [];
  const all: TrueRun[] = [];

  const owner = (): 'host' | 'board' => (at < leaseUntil ? 'host' : 'board');
  const moment = (millis: number): MonotonicMillis => monotonicMillis(millis);

  const verdictOf = ({ begunBy }: Run, seconds: number, endedBy: 'host' | 'board'): KeptRun['verdict'] => {
    if (endedBy === 'host') return 'judged-by-host';
    if (seconds < setup.floodSeconds / 2) return 'cut-short';
    return begunBy === 'host' ? 'unproven' : 'confirmed';
  };
  const stop = (endedBy: 'host' | 'board'): void => {
    if (run === null) return;
    const seconds = (at - run.startedAt) / SECOND;
    all.push({ startedAt: run.startedAt, endedAt: at });
    told.push({
      startedAt: moment(run.startedAt),
      seconds,
      begunBy: run.begunBy,
      endedBy,
      verdict: verdictOf(run, seconds, endedBy),
    });
    if (seconds >= setup.floodSeconds / 2) {
      lastFlood = { startedAt: run.startedAt, seconds };
      floodEndedAt = at;
    }
    run = null;
    offAt = at;
  };
  const start = (begunBy: 'board' | 'host', seconds: number): void => {
    run = { startedAt: at, begunBy, until: at + Math.min(seconds, setup.longestOnSeconds) * SECOND };
  };
  const mayStart = (): boolean => at >= holdUntil && at - offAt >= setup.shortestOffSeconds * SECOND;

  const keep = (): void => {
    if (run !== null || !mayStart()) return;
    const due = settledAt === null ? at - floodEndedAt >= setup.restSeconds * SECOND : at >= settledAt;
    if (!due) return;
    settledAt = null;
    start('board', setup.floodSeconds);
  };
  const second = (): void => {
    const before = owner();
    at += SECOND;
    if (lineWhole) leaseUntil = at + LEASE_SECONDS * SECOND;
    if (owner() === 'board' && before === 'host' && run !== null) {
      run.until = Math.min(run.until, run.startedAt + setup.floodSeconds * SECOND);
    }
    if (run !== null && run.until <= at) stop(owner());
    if (owner() === 'board') keep();
  };

  return {
    advance: (untilMillis) => {
      while (at < untilMillis) second();
    },
    command: (command) => {
      switch (command.kind) {
        case 'pump-off':
          stop('host');
          return true;
        case 'pump-on':
          if (run !== null) {
            const most = run.startedAt + setup.longestOnSeconds * SECOND;
            run.until = Math.min(at + command.longest * SECOND, most);
            return true;
          }
          if (!mayStart()) return false;
          settledAt = null;
          start('host', command.longest);
          return true;
        case 'hold':
          holdUntil = at + command.longest * SECOND;
          stop('host');
          return true;
        case 'release':
          holdUntil = -Infinity;
          return true;
      }
    },
    cut: (host) => {
      lineWhole = false;
      if (host === 'stays') told = [];
    },
    claimed: () => {
      lineWhole = true;
      leaseUntil = at + LEASE_SECONDS * SECOND;
      return {
        runs: told,
        forgotten: 0,
        running: run === null ? null : { startedAt: moment(run.startedAt), until: moment(run.until) },
        lastFlood: lastFlood === null ? null : { ...lastFlood, startedAt: moment(lastFlood.startedAt) },
        holdUntil: holdUntil > at ? moment(holdUntil) : null,
      };
    },
    powerLost: () => {
      stop('board');
      told = [];
      lastFlood = null;
      leaseUntil = -Infinity;
      offAt = at - setup.shortestOffSeconds * SECOND;
      settledAt = at + SETTLE_SECONDS * SECOND;
    },
    pressLong: (seconds) => {
      holdUntil = at + seconds * SECOND;
      stop(owner());
    },
    samples: () => {
      const wetFor = run === null ? -Infinity : (at - run.startedAt) / SECOND;
      const lastRun = all.at(-1);
      const ranLong =
        lastRun !== undefined && lastRun.endedAt - lastRun.startedAt >= WATER_SECONDS.comes * SECOND;
      const runsOn = ranLong && at - offAt < WATER_SECONDS.goes * SECOND;
      const flows = wetFor >= WATER_SECONDS.comes || runsOn;
      return [
        { at: moment(at), channel: 'air-temperature', celsius: at % (2 * MINUTE) < MINUTE ? 30 : 30.1 },
        { at: moment(at), channel: 'return-flow', litresPerMinute: flows ? 40 : 0 },
      ];
    },
    runs: () => (run === null ? all : [...all, { startedAt: run.startedAt, endedAt: at }]),
    pumpOn: () => run !== null,
  };
};
