import { isActive } from '../../src/alarm/alarm.ts';
import { isOnWater } from '../../src/alarm/stakes.ts';
import type { Step } from '../../src/controller.ts';
import { isByDay, shows } from '../../src/plan/day-view.ts';
import type { HostHealth } from '../../src/ports/host-health.ts';
import { believedNow } from '../../src/time/clock-trust.ts';
import { minutesBetween, type MonotonicMillis, type Now } from '../../src/time/instant.ts';
import { wasRenewed } from '../start/renewals.ts';
import type { Start } from '../start/starts.ts';
import { MEMORY, type LargeMemory } from './memory.ts';

/** A host is gone for some seconds, and must have the board in hand again before a flood is due. */
const CLEAR_MINUTES = 3;
/**
 * Hours since the last renewal. A host that is large again soon after it has no leak that a new start mends: then it is only
 * told, and once a night is enough; one near its limit may not wait so long.
 */
const APART_HOURS = { large: 20, nearLimit: 1 } as const;

/** What a step shows of the shed, as far as a host may end now. */
export interface Occasion {
  /** Whether the pump stands and no flood waits for its verdict. */
  readonly pump: 'rests' | 'in-use';
  /** Whether somebody has stopped the floods and may have hands in the water: an end may start a pump that runs without its board. */
  readonly hold: 'none' | 'held';
  /** Until the next flood is due; null where none is planned. */
  readonly minutesToFlood: number | null;
  /** Whether the sun is down, as far as the clock is believed. */
  readonly sun: 'up' | 'down' | 'unknown';
  /** Whether somebody is being called for water now. */
  readonly water: 'well' | 'alarm';
}

export const occasionOf = (
  { state, nextFloodAt }: Pick<Step, 'state' | 'nextFloodAt'>,
  now: Now,
): Occasion => {
  const { view } = state.almanac;
  const { wall } = believedNow(state.clock, now);
  const known = view !== null && wall !== 'unknown' && shows(view, wall);
  return {
    pump: state.flood === null && state.guard.asked.kind === 'off' ? 'rests' : 'in-use',
    hold: state.orders.hold === null ? 'none' : 'held',
    minutesToFlood: nextFloodAt === null ? null : minutesBetween(now.monotonic, nextFloodAt),
    sun: known ? (isByDay(view, wall) ? 'up' : 'down') : 'unknown',
    water: state.alarms.some((alarm) => isActive(alarm) && isOnWater(alarm.card.kind)) ? 'alarm' : 'well',
  };
};

/**
 * Whether a host that takes too much memory ends now: between floods, in no hold, at night and with nothing amiss. Near its
 * limit it waits for a rest without a hold alone, since it may else be ended in the middle of a flood.
 */
export const mayEnd = (
  memory: LargeMemory,
  { pump, hold, minutesToFlood, sun, water }: Occasion,
  renewals: readonly Start[],
  now: Start,
): boolean => {
  if (hold === 'held' || pump === 'in-use' || (minutesToFlood !== null && minutesToFlood < CLEAR_MINUTES))
    return false;
  if (memory.megabytes >= MEMORY.nearLimit) return !wasRenewed(APART_HOURS.nearLimit, renewals, now);
  const isQuiet = sun === 'down' && water === 'well' && minutesToFlood !== null;
  return isQuiet && !wasRenewed(APART_HOURS.large, renewals, now);
};

export interface RenewalAsked {
  readonly memory: (now: MonotonicMillis) => LargeMemory | null;
  /** Whether somebody starts this host anew when it ends. */
  readonly after: 'started-anew' | 'nobody';
  /** Renewals that hosts before this one have left. */
  readonly renewals: readonly Start[];
  readonly startOf: (now: Now) => Start;
  /** Keeps that this host ends for it; why not, where it cannot. */
  readonly write: (now: Start) => Promise<string | null>;
  readonly talk: (text: string) => void;
}

/** Ends a host that has grown too large, so that it is started anew. */
export interface Renewal {
  readonly health: (now: MonotonicMillis) => HostHealth['memory'];
  /** After each look at the shed. */
  readonly told: (step: Pick<Step, 'state' | 'nextFloodAt'>, now: Now) => void;
  /** Aborted once the host is to end. */
  readonly ends: AbortSignal;
}

export const createRenewal = (asked: RenewalAsked): Renewal => {
  const { memory, renewals, startOf, write, talk } = asked;
  const end = new AbortController();
  /** It may only end once the next one will know of it. */
  let mark: 'none' | 'on-its-way' | 'written' | 'refused' = 'none';
  const isByItself = (): boolean => asked.after === 'started-anew' && mark !== 'refused';
  const marked = async (now: Start): Promise<void> => {
    mark = 'on-its-way';
    const why = await write(now);
    mark = why === null ? 'written' : 'refused';
    if (why !== null) talk(`This host takes too much memory, and cannot end itself for it: ${why}`);
  };
  return {
    ends: end.signal,
    health: (now) => {
      const seen = memory(now);
      if (seen === null) return null;
      const { megabytes, since } = seen;
      return { megabytes, since, renewed: isByItself() ? 'by-itself' : 'by-hand' };
    },
    told: (step, now) => {
      if (!isByItself() || end.signal.aborted) return;
      const seen = memory(now.monotonic);
      if (seen === null || !mayEnd(seen, occasionOf(step, now), renewals, startOf(now))) return;
      if (mark === 'none') void marked(startOf(now));
      if (mark !== 'written') return;
      talk(
        `This host takes ${seen.megabytes.toFixed(0)} MB of memory. It ends between two floods, to be started anew.`,
      );
      end.abort();
    },
  };
};
