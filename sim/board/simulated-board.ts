import type { Board } from '../../src/ports/board.ts';
import type { Sample } from '../../src/ports/sample.ts';
import type { MonotonicMillis } from '../../src/time/instant.ts';
import type { Dice } from '../dice.ts';
import type { Fault } from '../faults/fault.ts';
import type { Plant, Witness } from '../plant/plant.ts';
import type { Sky } from '../weather/sky.ts';
import { createRelayContact, type RelayContact } from './relay-contact.ts';
import { createSensors, type Fitted } from './sensors.ts';

/** The board itself keeps the motor from chattering and never runs it past this. */
export interface BoardLimits {
  readonly shortestOffSeconds: number;
  readonly longestOnMinutes: number;
}

/** A board without a line to it that could break: for rehearsals, which ask about water and not about cables. */
export interface ShedBoard extends Pick<Board, 'command' | 'samples'> {
  /** Lets time pass in the shed up to `untilMillis`; the board keeps its own limits meanwhile. */
  readonly advance: (untilMillis: number, witness?: Witness) => void;
  /** Reads every fitted sensor now. */
  readonly sense: (now: MonotonicMillis) => void;
  /** For whoever judges the world: no host sees the relay itself. */
  readonly relay: Pick<RelayContact, 'asked' | 'contact'>;
}

/** What stands behind a board in a simulated shed. */
export interface ShedSetup {
  readonly fitted: Fitted;
  readonly limits: BoardLimits;
  readonly faults: readonly Fault[];
  readonly fullReturnLitresPerMinute: number;
  readonly dice: Dice;
}

/**
 * A board in front of the simulated plant: takes pump commands, holds longest-on and shortest-off by itself
 * and reads sensors with noise and lag.
 */
export const createShedBoard = (plant: Plant, sky: Sky, shed: ShedSetup): ShedBoard => {
  const { limits } = shed;
  const relay = createRelayContact(plant, shed.faults);
  const sensors = createSensors(plant, sky, shed);
  let samples: Sample[] = [];
  let startedAt: number | null = null;
  let offAt = Infinity;
  let stoppedAt = -Infinity;

  const stop = (): void => {
    if (startedAt !== null) stoppedAt = plant.state.atMillis;
    startedAt = null;
    offAt = Infinity;
    relay.ask('open');
  };

  return {
    command: (command) => {
      const now = plant.state.atMillis;
      switch (command.kind) {
        case 'pump-off':
          stop();
          return;
        case 'pump-on':
          if (now - stoppedAt < limits.shortestOffSeconds * 1000) return;
          // Asked again while it runs, the pump still gets no more than the longest-on of one run.
          startedAt ??= now;
          offAt = Math.min(now + command.longest * 1000, startedAt + limits.longestOnMinutes * 60_000);
          relay.ask('closed');
          return;
        case 'hold':
        case 'release':
          // This board keeps nothing: the host holds by not asking.
          return;
      }
    },
    samples: () => {
      const seen = samples;
      samples = [];
      return seen;
    },
    advance: (untilMillis, witness) => {
      while (plant.state.atMillis < untilMillis) {
        relay.advance(Math.min(untilMillis, offAt), witness);
        if (plant.state.atMillis >= offAt) stop();
      }
    },
    sense: (at) => {
      samples.push(...sensors.sense(at, relay.contact()));
    },
    relay,
  };
};
