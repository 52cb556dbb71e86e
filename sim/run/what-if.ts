import { heldShares, type Plant } from '../plant/plant.ts';
import type { PumpRun } from './tally.ts';

const LOOK_MILLIS = 5 * 60_000;
/** After a miss the benches are watched until the next flood has ended and its water has run on. */
const AFTER_MILLIS = 10 * 60_000;

/** Nobody asks what would come more than this long after the pump failed. */
export const TIME_LEFT_MINUTES_MAX = 24 * 60;

export interface TimeLeftFound {
  /** Minutes from the failure until the bench is at its wilt floor; TIME_LEFT_MINUTES_MAX when it holds. */
  readonly minutes: number;
  readonly failedAtMillis: number;
}

/**
 * For each bench the shortest time from a failure of the pump to the wilt floor. Within a rest that moment does
 * not move, so the worst failures are those at the moment of a start: the plants given are taken just before.
 */
export const worstTimeLeft = (beforeStarts: readonly Plant[], wilt: number): readonly TimeLeftFound[] => {
  const first = beforeStarts[0];
  if (first === undefined) return [];
  const worst = first.state.benches.map((): TimeLeftFound => ({
    minutes: TIME_LEFT_MINUTES_MAX,
    failedAtMillis: first.state.atMillis,
  }));
  const driestFirst = [...beforeStarts].sort(
    (a, b) => Math.min(...heldShares(a)) - Math.min(...heldShares(b)),
  );
  for (const before of driestFirst) {
    const plant = before.forked();
    plant.setPump(false);
    const failedAtMillis = plant.state.atMillis;
    let thetas = heldShares(plant);
    const open = new Set(worst.keys());
    const longest = Math.max(...worst.map((found) => found.minutes));
    for (let gone = 0; gone < longest && open.size > 0; gone += LOOK_MILLIS / 60_000) {
      plant.advance(failedAtMillis + gone * 60_000 + LOOK_MILLIS);
      const next = heldShares(plant);
      for (const place of open) {
        const now = thetas[place] ?? 1;
        const then = next[place] ?? 1;
        if (then > wilt) continue;
        open.delete(place);
        const share = now <= wilt ? 0 : (now - wilt) / (now - then);
        const minutes = gone + (share * LOOK_MILLIS) / 60_000;
        if (minutes < (worst[place]?.minutes ?? 0)) worst[place] = { minutes, failedAtMillis };
      }
      thetas = next;
    }
  }
  return worst;
};

export interface OneMiss {
  /** Lowest θ of each bench with its worst single flood missed, and the start of that flood. */
  readonly theta: number;
  readonly missedAtMillis: number;
}

/**
 * Takes away one flood at a time and lets the others run as they did, without the controller's help: what the
 * plan alone survives. A start that is not of a flood, and the last flood, after which nobody knows the next, are left out.
 */
export const worstMiss = (beforeStarts: readonly Plant[], floods: readonly PumpRun[]): readonly OneMiss[] => {
  const benches = beforeStarts[0]?.state.benches ?? [];
  const worst = benches.map((): OneMiss => ({ theta: Infinity, missedAtMillis: 0 }));
  for (const before of beforeStarts) {
    const start = before.state.atMillis;
    const place = floods.findIndex((flood) => Math.abs(flood.fromMillis - start) < 1000);
    const next = place < 0 ? undefined : floods[place + 1];
    if (next === undefined) continue;
    const plant = before.forked();
    const look = (): void => {
      heldShares(plant).forEach((theta, bench) => {
        if (theta < (worst[bench]?.theta ?? Infinity)) worst[bench] = { theta, missedAtMillis: start };
      });
    };
    plant.setPump(false);
    plant.advance(next.fromMillis, look);
    plant.setPump(true);
    plant.advance(next.untilMillis, look);
    plant.setPump(false);
    plant.advance(next.untilMillis + AFTER_MILLIS, look);
  }
  return worst;
};
