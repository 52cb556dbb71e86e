import { clockDrift, type ClockDrift } from '../../../src/time/clock-drift.ts';
import { afterSeconds, secondsBetween, type MonotonicMillis } from '../../../src/time/instant.ts';

/** One look at the clock of the board. */
interface Look {
  readonly uptimeSeconds: number;
  readonly at: MonotonicMillis;
}

/** The board's uptime against the host's monotonic clock, as far as both were seen running. */
export interface BoardClock {
  readonly last: Look | null;
  /** One a minute, oldest first. */
  readonly looks: readonly Look[];
}

export const NO_CLOCK: BoardClock = { last: null, looks: [] };

/** Uptime comes in whole seconds: over a shorter span one of them would be read as drift. */
const SPAN_SECONDS = 600;
const LOOK_SECONDS = 60;
const LOOKS_MAX = 1 + Math.ceil(SPAN_SECONDS / LOOK_SECONDS);
/** More between two looks is a host that slept, or a clock that stood: it says nothing of how fast either runs. */
const STEP_SECONDS = 5;

/** The host's clock at which the board's seconds began. */
export const bootOf = ({ uptimeSeconds, at }: Look): MonotonicMillis => afterSeconds(at, -uptimeSeconds);

const drifted = (from: Look, to: Look): number =>
  to.uptimeSeconds - from.uptimeSeconds - secondsBetween(from.at, to.at);

export const lookedAt = (clock: BoardClock, look: Look): BoardClock => {
  const { last, looks } = clock;
  if (last !== null && Math.abs(drifted(last, look)) > STEP_SECONDS) return { last: look, looks: [look] };
  const newest = looks.at(-1);
  const due = newest === undefined || secondsBetween(newest.at, look.at) >= LOOK_SECONDS;
  return { last: look, looks: due ? [...looks, look].slice(-LOOKS_MAX) : looks };
};

/** Null as long as both have not been seen running for ten minutes. */
export const driftOf = ({ last, looks }: BoardClock): ClockDrift | null => {
  const [first] = looks;
  if (last === null || first === undefined) return null;
  const span = secondsBetween(first.at, last.at);
  return span < SPAN_SECONDS ? null : clockDrift(last.uptimeSeconds - first.uptimeSeconds, span);
};
