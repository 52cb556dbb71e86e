import { demoWiring } from '../../sim/board/demo-wiring.ts';
import type { StatusAsked } from '../../firmware-host/status-view.ts';
import { begin, step, type Step } from '../../src/controller.ts';
import type { Now } from '../../src/time/instant.ts';
import { exampleFarm } from './farm.ts';
import { minute, utc } from './moments.ts';

/** Noon in Lisbon; the monotonic clock knows nothing of it. */
export const NOON: Now = { monotonic: minute(500), wall: utc('2026-07-14T11:00Z') };

/** The example farm at noon, between two floods, before any sensor has spoken. */
export const RESTING: Step = step(
  exampleFarm,
  begin(exampleFarm, NOON, { kind: 'up' }),
  { kind: 'samples', samples: [] },
  NOON,
);

/**
 * What the status of that host is made from: its last flood was confirmed ten minutes ago, the next comes in 27, and without
 * the pump 83 min are left.
 */
export const restingHost = (state: Partial<Step['state']> = {}, change: Partial<Step> = {}): StatusAsked => ({
  farm: exampleFarm,
  wiring: demoWiring(exampleFarm),
  calibration: null,
  simulated: false,
  board: { says: 'a board', warning: null },
  step: {
    ...RESTING,
    nextFloodAt: minute(527),
    left: () => ({ minutes: 83.4, bench: 'Bench 4' }),
    ...change,
    state: { ...RESTING.state, ...state },
  },
  last: { verdict: { kind: 'confirmed', says: 'water back after 2.0 min' }, at: minute(490) },
  now: NOON,
});
