import { Keeper, type TrueRun } from '../../sim/board/keeper.ts';
import type { BoardCommand, Kept } from '../../src/ports/board.ts';
import type { Sample } from '../../src/ports/sample.ts';
import { monotonicMillis } from '../../src/time/instant.ts';

/** A board that keeps the plants in front of a loop that always gives water, in 1 s steps. */

const SECOND = 1000;
const MINUTE = 60 * SECOND;
/** How long water needs to the meter on the common return, and how long it runs on after a stop. */
const WATER_SECONDS = { comes: 180, goes: 240 } as const;

export type { TrueRun } from '../../sim/board/keeper.ts';

export interface KeepingBoardSetup {
  readonly restSeconds: number;
  readonly floodSeconds: number;
  readonly longestOnSeconds: number;
  readonly shortestOffSeconds: number;
  readonly startMillis: number;
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
  const { restSeconds, floodSeconds } = setup;
  let at = setup.startMillis;
  let host: 'stays' | 'dies' = 'stays';
  const keeper = new Keeper({
    ...setup,
    parts: [{ fromMinute: 0, restSeconds, coolRestSeconds: restSeconds, floodSeconds }],
    drive: () => undefined,
    judge: (begunBy) => (begunBy === 'host' ? 'unproven' : 'confirmed'),
  });

  return {
    advance: (untilMillis) => {
      while (at < untilMillis) {
        at += SECOND;
        keeper.pass(at);
      }
    },
    command: (command) => keeper.command(command),
    cut: (fate) => {
      host = fate;
      keeper.silent();
    },
    claimed: () => keeper.claimed(host === 'stays' ? 'same' : 'another', monotonicMillis(at)),
    powerLost: () => {
      keeper.powerLost();
    },
    pressLong: (seconds) => {
      keeper.pressLong(seconds);
    },
    samples: () => {
      const runs = keeper.runs();
      const now = keeper.pumpOn ? runs.at(-1) : undefined;
      const last = keeper.pumpOn ? runs.at(-2) : runs.at(-1);
      const wetFor = now === undefined ? -Infinity : (at - now.startedAt) / SECOND;
      const ranLong = last !== undefined && last.endedAt - last.startedAt >= WATER_SECONDS.comes * SECOND;
      const runsOn = ranLong && at - last.endedAt < WATER_SECONDS.goes * SECOND;
      const flows = wetFor >= WATER_SECONDS.comes || runsOn;
      const moment = monotonicMillis(at);
      return [
        { at: moment, channel: 'air-temperature', celsius: at % (2 * MINUTE) < MINUTE ? 30 : 30.1 },
        { at: moment, channel: 'return-flow', litresPerMinute: flows ? 40 : 0 },
      ];
    },
    runs: () => keeper.runs(),
    pumpOn: () => keeper.pumpOn,
  };
};
