import { begin, step, type Step } from '../../src/controller.ts';
import type { Farm } from '../../src/farm/farm.ts';
import type { Entry } from '../../src/journal/entry.ts';
import { monotonicMillis, wallMillis, type Now } from '../../src/time/instant.ts';
import type { Plant, Witness } from '../plant/plant.ts';
import type { Shed } from './shed.ts';

/** In the simulated shed both clocks are one. */
export const simulatedNow = (atMillis: number): Now => ({
  monotonic: monotonicMillis(atMillis),
  wall: wallMillis(atMillis),
});

export interface Driven {
  readonly entries: readonly Entry[];
  /** The plant just before each start of the pump. */
  readonly beforeStarts: readonly Plant[];
}

/** Runs the controller in the shed until `untilMillis`, called only when it asked to be. */
export const drive = (farm: Farm, shed: Shed, untilMillis: number, witness: Witness): Driven => {
  const { plant, board } = shed;
  const entries: Entry[] = [];
  const beforeStarts: Plant[] = [];
  let state = begin(farm, simulatedNow(plant.state.atMillis), { kind: 'up' });
  let wake: number = plant.state.atMillis;
  while (plant.state.atMillis < untilMillis) {
    board.advance(Math.min(wake, untilMillis), witness);
    const now = simulatedNow(plant.state.atMillis);
    board.sense(now.monotonic);
    const next: Step = step(farm, state, { kind: 'samples', samples: board.samples() }, now);
    state = next.state;
    wake = next.wake;
    entries.push(...next.entries);
    for (const command of next.commands) {
      if (command.kind === 'pump-on') beforeStarts.push(plant.forked());
      board.command(command);
    }
  }
  return { entries, beforeStarts };
};
