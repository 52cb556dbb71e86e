import { begin, step, type ControllerState, type Event, type Step } from '../../../src/controller.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import type { Sample } from '../../../src/ports/sample.ts';
import { monotonicMillis, wallMillis, type Now } from '../../../src/time/instant.ts';
import type { Next } from './happenings.ts';

export interface Played {
  readonly now: Now;
  readonly event: Event;
  readonly before: ControllerState;
  readonly step: Step;
}

/** More than any flood with its retries needs. */
const QUIET_TURNS_MAX = 300;
const START = 1_000_000_000;
const NOON = Date.UTC(2026, 6, 14, 11);

export const frozen = <Value>(value: Value): Value => {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    Object.values(value).forEach(frozen);
  }
  return value;
};

const sampled = (all: Extract<Next, { kind: 'seen' }>['all'], at: number): readonly Sample[] =>
  all.map(({ said, age }): Sample => ({ ...said, at: monotonicMillis(at - age) }));

/** Plays what happens to a new controller. Every state and event is frozen before it is handed in. */
export const played = (farm: Farm, all: readonly Next[]): readonly Played[] => {
  const steps: Played[] = [];
  let at = START;
  let offset: number | null = NOON - START;
  const now = (): Now => ({
    monotonic: monotonicMillis(at),
    wall: offset === null ? 'unknown' : wallMillis(at + offset),
  });
  let state = frozen(begin(farm, now(), { kind: 'up' }));
  let wake = START;
  const take = (event: Event): void => {
    const before = state;
    const next = step(farm, before, frozen(event), now());
    steps.push({ now: now(), event, before, step: next });
    state = frozen(next.state);
    ({ wake } = next);
  };
  for (const next of all) {
    at = next.gap === 'wake' ? Math.max(at, wake) : at + next.gap;
    switch (next.kind) {
      case 'seen':
        take({ kind: 'samples', samples: sampled(next.all, at) });
        break;
      case 'order':
        take(next.event);
        break;
      case 'wall':
        offset = next.wall === 'unknown' ? null : next.wall - at;
        take({ kind: 'time' });
    }
  }
  // Quiet afterwards, so that the last flood finds its verdict.
  for (let turn = 0; turn < QUIET_TURNS_MAX && state.flood !== null; turn += 1) {
    at = wake;
    take({ kind: 'time' });
  }
  return steps;
};
