import { keptState, type ControllerState } from '../../src/controller.ts';
import type { Now } from '../../src/time/instant.ts';

/** Where nothing is entered the state waits so long for a write: a memory card wears out with writes. */
const EVERY_MILLIS = 10_000;

/** What of a host's state is on its disk at any moment. */
export interface KeptText {
  /** Whatever has been entered is written at once, with the state that it has led to. */
  readonly entered: (state: ControllerState, atMillis: number) => void;
  /** The state has stood like this up to this moment; of that the disk has the last beat. */
  readonly stood: (state: ControllerState, untilMillis: number) => void;
  readonly text: () => string;
}

/** Keeps as a host on a healthy disk does, from `bornMillis` on. */
export const createKeptText = (
  begun: ControllerState,
  bornMillis: number,
  clocksAt: (atMillis: number) => Now,
): KeptText => {
  let last = { state: begun, atMillis: bornMillis, clocks: clocksAt(bornMillis) };
  const keep = (state: ControllerState, atMillis: number): void => {
    last = { state, atMillis, clocks: clocksAt(atMillis) };
  };
  return {
    entered: keep,
    stood: (state, untilMillis) => {
      const beats = Math.floor((untilMillis - last.atMillis) / EVERY_MILLIS);
      if (beats > 0) keep(state, last.atMillis + beats * EVERY_MILLIS);
    },
    text: () => JSON.stringify(keptState(last.state, last.clocks)),
  };
};
