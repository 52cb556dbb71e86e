import type { Farm } from '../farm/farm.ts';
import {
  afterMinutes,
  afterSeconds,
  minutesBetween,
  monotonicMillis,
  secondsBetween,
  type MonotonicMillis,
} from '../time/instant.ts';
import type { Seen } from '../sense/seen.ts';
import { farmLitresPerMinute, type Sighting } from './sighting.ts';
import type { MissClue, Verdict } from './verdict.ts';

/** Tries after the first; each is a stop of shortest off and a run of prime minutes. */
export const RETRIES_MAX = 2;
export const PRIME_MINUTES = 3;
/** Contact and current follow a command at once; a board reports within this time. */
const POWER_SECONDS = 35;
/** Of the minutes in which water could have been seen, it must be seen in this share. */
const WATER_SHARE_MIN = 0.6;
/** Below this share of the usual return a flood is weak. */
const WEAK_SHARE = 0.7;
/** Shorter floods do not reach a steady return, so their flow says nothing; */
const STEADY_MINUTES = 10;
/** nor does one shorter than so many lags: until floods have taught how slow the channels are they may be as slow as any. */
const STEADY_LAGS = 2;
/** A meter needs some pulses, a float ten seconds, before a board that is heard again can be held to its word. */
const SETTLE_MINUTES = 1;
/** A tank that gave water falls by at least this share of what the pump should have moved in ten minutes. */
const DIP_SHARE = 0.2;

/** One due flood from its start to its verdict. */
export interface Flood {
  readonly id: number;
  readonly part: string;
  readonly reason: string;
  readonly minutes: number;
  readonly lagMinutes: number;
  readonly startedAt: MonotonicMillis;
  readonly retries: number;
  readonly attemptAt: MonotonicMillis;
  readonly phase:
    | { readonly kind: 'running'; readonly endsAt: MonotonicMillis }
    /** The pump has stopped, but the water of a short flood may still be on its way. */
    | { readonly kind: 'draining'; readonly endsAt: MonotonicMillis }
    | { readonly kind: 'pausing'; readonly endsAt: MonotonicMillis };
  readonly lookedAt: MonotonicMillis;
  readonly waterFirstAt: MonotonicMillis | null;
  readonly waterMinutes: number;
  /** Minutes of this attempt in which the return could be read at all. */
  readonly readMinutes: number;
  readonly contact: Seen;
  readonly current: Seen;
  readonly mains: Seen;
  readonly endLitresPerMinute: number | null;
  readonly tankAtStart: number | null;
  readonly tankLowest: number | null;
  /** Until when the board went on with it and nobody here could see it; null when it was watched throughout. */
  readonly unwatchedUntil: MonotonicMillis | null;
}

export type Watched =
  | { readonly kind: 'going'; readonly flood: Flood; readonly pump: 'on' | 'off' }
  | { readonly kind: 'again'; readonly flood: Flood }
  | { readonly kind: 'over'; readonly flood: Flood; readonly verdict: Verdict };

/** What is seen of the pump's power before anything has been. */
export const NO_POWER_SEEN = { contact: 'unknown', current: 'unknown', mains: 'unknown' } as const;

/** A new attempt has been seen to do nothing yet. */
export const NOTHING_SEEN = {
  waterFirstAt: null,
  waterMinutes: 0,
  readMinutes: 0,
  ...NO_POWER_SEEN,
} as const;

export const beganFlood = (
  facts: Pick<Flood, 'id' | 'part' | 'reason' | 'minutes' | 'lagMinutes'>,
  tankLitres: number | null,
  now: MonotonicMillis,
): Flood => ({
  ...facts,
  startedAt: now,
  retries: 0,
  attemptAt: now,
  phase: { kind: 'running', endsAt: afterMinutes(now, facts.minutes) },
  lookedAt: now,
  ...NOTHING_SEEN,
  endLitresPerMinute: null,
  tankAtStart: tankLitres,
  tankLowest: tankLitres,
  unwatchedUntil: null,
});

const retryMinutes = (farm: Farm): number => farm.pump.shortestOffSeconds / 60 + PRIME_MINUTES;

/** By when the flood must have shown water: start, return lag, and the bounded time for retries. */
export const deadlineMinutes = (farm: Farm, lagMinutes: number): number =>
  lagMinutes + RETRIES_MAX * retryMinutes(farm);

/** Once seen in an attempt is seen; not seen counts only when nothing was. */
const either = (before: Seen, now: Seen): Seen => {
  if (before === 'seen' || now === 'seen') return 'seen';
  return now === 'unknown' ? before : now;
};

const looked = (flood: Flood, seen: Sighting, now: MonotonicMillis): Flood => {
  const span = minutesBetween(flood.lookedAt, now);
  const running = flood.phase.kind === 'running';
  const settled = secondsBetween(flood.attemptAt, now) >= POWER_SECONDS;
  const tank = seen.tankLitres;
  return {
    ...flood,
    lookedAt: now,
    waterFirstAt: seen.water === 'seen' ? (flood.waterFirstAt ?? now) : flood.waterFirstAt,
    waterMinutes: flood.waterMinutes + (seen.water === 'seen' ? span : 0),
    readMinutes: flood.readMinutes + (seen.water === 'unknown' ? 0 : span),
    contact: running && settled ? either(flood.contact, seen.contact) : flood.contact,
    current: running && settled ? either(flood.current, seen.current) : flood.current,
    mains: running && settled ? either(flood.mains, seen.mains) : flood.mains,
    endLitresPerMinute: running ? seen.returnLitresPerMinute : flood.endLitresPerMinute,
    tankAtStart: flood.tankAtStart ?? tank,
    tankLowest: tank === null ? flood.tankLowest : Math.min(tank, flood.tankLowest ?? tank),
  };
};

/** Whether the tank fell by what the pump should have taken from it. */
const tankFell = (farm: Farm, flood: Flood): Seen => {
  if (flood.tankAtStart === null || flood.tankLowest === null) return 'unknown';
  const expected = farmLitresPerMinute(farm) * Math.min(flood.minutes, STEADY_MINUTES) * DIP_SHARE;
  return flood.tankAtStart - flood.tankLowest >= expected ? 'seen' : 'not-seen';
};

/** Whether nothing can be told yet because the board has only just been heard again. */
const unsettled = ({ unwatchedUntil }: Flood, now: MonotonicMillis): boolean =>
  unwatchedUntil !== null && minutesBetween(unwatchedUntil, now) < SETTLE_MINUTES;

/** Until when an attempt waits for its water. */
const patienceEnds = ({ attemptAt, retries, lagMinutes }: Flood): MonotonicMillis =>
  afterMinutes(attemptAt, retries === 0 ? lagMinutes : PRIME_MINUTES);

/**
 * Whether this attempt has failed: no water after the lag or, where nothing can see water, no power. A
 * current sensor that lies must not cut short a flood whose water can be seen.
 */
const failed = (flood: Flood, seen: Sighting, now: MonotonicMillis): boolean => {
  if (flood.waterFirstAt !== null || unsettled(flood, now)) return false;
  if (seen.water === 'unknown') {
    const dead = flood.contact === 'not-seen' || flood.mains === 'not-seen';
    return flood.current === 'not-seen' || (dead && flood.current !== 'seen');
  }
  return seen.water === 'not-seen' && now >= patienceEnds(flood);
};

/** Below this share of the usual return it is what the flood before left in the channels. */
const TRICKLE_SHARE = 0.1;

const trickle = ({ endLitresPerMinute: flow }: Flood, usualLitresPerMinute: number): number | null =>
  flow !== null && flow >= TRICKLE_SHARE * usualLitresPerMinute ? flow : null;

const clueOf = (farm: Farm, flood: Flood, usualLitresPerMinute: number): MissClue => ({
  contact: flood.contact,
  current: flood.current,
  mains: flood.mains,
  tankFell: tankFell(farm, flood),
  trickleLitresPerMinute: trickle(flood, usualLitresPerMinute),
  startedAt: flood.startedAt,
  deadline: afterMinutes(flood.startedAt, deadlineMinutes(farm, flood.lagMinutes)),
  retries: flood.retries,
});

/** What is said of one of which no try gave water. */
export const missed = (farm: Farm, flood: Flood, usualLitresPerMinute: number): Verdict => ({
  kind: 'missed',
  says: `no water came back in ${Math.round(minutesBetween(flood.startedAt, flood.lookedAt))} min and ${flood.retries} retries`,
  clue: clueOf(farm, flood, usualLitresPerMinute),
});

/** The verdict of a flood whose time is over and which did not fail. */
export const closing = (farm: Farm, flood: Flood, usualLitresPerMinute: number): Verdict => {
  const minutes = flood.minutes.toFixed(0);
  const again = flood.retries > 0 ? `, after ${flood.retries} retries` : '';
  if (flood.waterFirstAt !== null) {
    const lag = minutesBetween(flood.attemptAt, flood.waterFirstAt);
    const late = flood.unwatchedUntil !== null && flood.unwatchedUntil <= flood.waterFirstAt;
    const could = Math.max(0.5, flood.readMinutes - (late ? flood.lagMinutes : lag));
    if (flood.waterMinutes < WATER_SHARE_MIN * could) {
      const says = `water came back for only ${flood.waterMinutes.toFixed(0)} of ${minutes} min${again}`;
      return { kind: 'degraded', says, why: 'cut-short' };
    }
    const flow = flood.endLitresPerMinute;
    const steady = flood.minutes >= Math.max(STEADY_MINUTES, STEADY_LAGS * flood.lagMinutes);
    if (flow !== null && steady && flow < WEAK_SHARE * usualLitresPerMinute) {
      const says = `return flow ${flow.toFixed(0)} L/min, usually ${usualLitresPerMinute.toFixed(0)}${again}`;
      return { kind: 'degraded', says, why: 'weak' };
    }
    // When it came back unseen nobody knows how long it took.
    const says = late
      ? 'water was back when the board was heard again'
      : `water back after ${lag.toFixed(1)} min`;
    return { kind: 'confirmed', says: `${says}${again}` };
  }
  if (tankFell(farm, flood) === 'seen') return { kind: 'confirmed', says: `the tank gave its water${again}` };
  if (flood.current === 'seen') {
    return { kind: 'unproven', says: 'the pump drew current; nothing that reads can see the water' };
  }
  if (flood.contact === 'seen') {
    return { kind: 'unproven', says: 'the relay closed; nothing that reads can see the water' };
  }
  return { kind: 'unproven', says: 'nothing that reads can tell whether water flowed' };
};

/**
 * Looks at a flood once more. A failed attempt is followed by a pause and a retry, while the tank is not dry
 * and retries are left; then the flood is missed. The pump of a missed flood runs out its time all the same:
 * the sensor may be what is broken, and the roots must not pay for it.
 */
export const watched = (
  farm: Farm,
  before: Flood,
  seen: Sighting,
  usualLitresPerMinute: number,
  mayRetry: boolean,
  now: MonotonicMillis,
): Watched => {
  const flood = looked(before, seen, now);
  const { phase } = flood;
  if (phase.kind === 'pausing') {
    if (now < phase.endsAt) return { kind: 'going', flood, pump: 'off' };
    return {
      kind: 'again',
      flood: {
        ...flood,
        retries: flood.retries + 1,
        attemptAt: now,
        phase: { kind: 'running', endsAt: afterMinutes(now, flood.minutes) },
        ...NOTHING_SEEN,
        unwatchedUntil: null,
      },
    };
  }
  if (failed(flood, seen, now)) {
    if (flood.retries >= RETRIES_MAX || !mayRetry)
      return { kind: 'over', flood, verdict: missed(farm, flood, usualLitresPerMinute) };
    const endsAt = afterSeconds(now, farm.pump.shortestOffSeconds);
    return { kind: 'going', flood: { ...flood, phase: { kind: 'pausing', endsAt } }, pump: 'off' };
  }
  if (now < phase.endsAt) return { kind: 'going', flood, pump: phase.kind === 'running' ? 'on' : 'off' };
  const lagEnds = afterMinutes(flood.attemptAt, flood.lagMinutes);
  if (seen.water === 'not-seen' && flood.waterFirstAt === null && now < lagEnds) {
    return { kind: 'going', flood: { ...flood, phase: { kind: 'draining', endsAt: lagEnds } }, pump: 'off' };
  }
  return { kind: 'over', flood, verdict: closing(farm, flood, usualLitresPerMinute) };
};

/**
 * A flood that was stopped by an order or an interlock before its end. With at least half of its minutes of
 * water it counts as a weak one, else as withheld.
 */
export const stopped = (flood: Flood, why: string, now: MonotonicMillis): Verdict => {
  const ran = minutesBetween(flood.startedAt, now);
  const says = `stopped after ${ran.toFixed(0)} of ${flood.minutes.toFixed(0)} min: ${why}`;
  if (flood.waterMinutes >= flood.minutes / 2) return { kind: 'degraded', says, why: 'stopped' };
  return { kind: 'withheld', says };
};

const LOOK_SECONDS = 30;

/** When the flood wants to be looked at next: also when an attempt may have failed, for what is late there adds up. */
export const nextLook = (flood: Flood, now: MonotonicMillis): MonotonicMillis => {
  const { endsAt } = flood.phase;
  const fails = patienceEnds(flood);
  const moments = [endsAt, afterSeconds(now, LOOK_SECONDS), ...(fails > now ? [fails] : [])];
  return monotonicMillis(Math.max(now + 1000, Math.min(...moments)));
};
