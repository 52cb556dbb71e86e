import type { Farm } from '../farm/farm.ts';
import type { Seen } from '../sense/seen.ts';
import {
  afterMinutes,
  afterSeconds,
  minutesBetween,
  monotonicMillis,
  secondsBetween,
  type MonotonicMillis,
} from '../time/instant.ts';
import { closing, missed, missedByTank, tankDenies } from './flood-verdict.ts';
import {
  deadlineOf,
  GONE_MINUTES,
  NOTHING_SEEN,
  PLATEAU_MINUTES,
  PRIME_MINUTES,
  RETRIES_MAX,
  type Flood,
  type Plateau,
} from './flood.ts';
import type { Sighting } from './sighting.ts';
import type { Verdict } from './verdict.ts';

/** Contact and current follow a command at once; a board reports within this time. A shorter flood is held to it at its end. */
const POWER_SECONDS = 35;
/** A meter needs some pulses, a float ten seconds, before a board that is heard again can be held to its word. */
const SETTLE_MINUTES = 1;

export type Watched =
  | { readonly kind: 'going'; readonly flood: Flood; readonly pump: 'on' | 'off' }
  | { readonly kind: 'again'; readonly flood: Flood }
  | { readonly kind: 'over'; readonly flood: Flood; readonly verdict: Verdict };

/** Once seen in an attempt is seen; not seen counts only when nothing was. */
const either = (before: Seen, now: Seen): Seen => {
  if (before === 'seen' || now === 'seen') return 'seen';
  return now === 'unknown' ? before : now;
};

/** Whether what this attempt has shown is there still, by the best that can be read: the water, else the power. */
const stillThere = (flood: Flood, seen: Sighting): Seen => {
  if (seen.water === 'seen') return 'seen';
  if (seen.water === 'not-seen') return flood.waterFirstAt === null ? 'unknown' : 'not-seen';
  if (seen.current !== 'unknown') return flood.current === 'seen' ? seen.current : 'unknown';
  return flood.contact === 'seen' ? seen.contact : 'unknown';
};

const goneSince = (flood: Flood, seen: Sighting, now: MonotonicMillis): MonotonicMillis | null => {
  switch (stillThere(flood, seen)) {
    case 'seen':
      return null;
    case 'not-seen':
      return flood.goneSince ?? now;
    case 'unknown':
      return flood.goneSince;
  }
};

/** Until when an attempt waits for its water. */
const patienceEnds = ({ attemptAt, retries, lagMinutes }: Flood): MonotonicMillis =>
  afterMinutes(attemptAt, retries === 0 ? lagMinutes : PRIME_MINUTES);

/** Water that is gone before this attempt could have brought any was what the flood before had left in the channels. */
const waterFirstAt = (flood: Flood, seen: Sighting, now: MonotonicMillis): MonotonicMillis | null => {
  if (seen.water === 'seen') return flood.waterFirstAt ?? now;
  const early = flood.phase.kind === 'running' && now < afterMinutes(patienceEnds(flood), -GONE_MINUTES);
  return early && seen.water === 'not-seen' ? null : flood.waterFirstAt;
};

const plateauRead = (
  { phase, plateau }: Flood,
  seen: Sighting,
  minutes: number,
  now: MonotonicMillis,
): Plateau =>
  phase.kind !== 'running' ||
  seen.returnLitresPerMinute === null ||
  now <= afterMinutes(phase.endsAt, -PLATEAU_MINUTES)
    ? plateau
    : {
        litres: plateau.litres + seen.returnLitresPerMinute * minutes,
        minutes: plateau.minutes + minutes,
      };

const looked = (before: Flood, seen: Sighting, now: MonotonicMillis): Flood => {
  const flood = { ...before, waterFirstAt: waterFirstAt(before, seen, now) };
  const span = minutesBetween(flood.lookedAt, now);
  const running = flood.phase.kind === 'running';
  const settled = secondsBetween(flood.attemptAt, now) >= Math.min(POWER_SECONDS, 60 * flood.minutes);
  const tank = seen.tankLitres;
  return {
    ...flood,
    lookedAt: now,
    goneSince: running && settled ? goneSince(flood, seen, now) : flood.goneSince,
    waterMinutes: flood.waterMinutes + (seen.water === 'seen' ? span : 0),
    readMinutes: flood.readMinutes + (seen.water === 'unknown' ? 0 : span),
    readableSince: seen.water === 'unknown' ? null : (flood.readableSince ?? now),
    levelMinutes: flood.levelMinutes + (tank === null ? 0 : span),
    contact: running && settled ? either(flood.contact, seen.contact) : flood.contact,
    current: running && settled ? either(flood.current, seen.current) : flood.current,
    mains: running && settled ? either(flood.mains, seen.mains) : flood.mains,
    plateau: plateauRead(flood, seen, span, now),
    endLitresPerMinute: running ? seen.returnLitresPerMinute : flood.endLitresPerMinute,
    tankAtStart: flood.tankAtStart ?? tank,
    tankLowest: tank === null ? flood.tankLowest : Math.min(tank, flood.tankLowest ?? tank),
  };
};

/** Whether nothing can be told yet because what tells has only just been heard again. */
const unsettled = (since: MonotonicMillis | null, now: MonotonicMillis): boolean =>
  since !== null && minutesBetween(since, now) < SETTLE_MINUTES;

/** Whether what was there is gone for good while the pump should run: for long enough, or at two looks when its time is over. */
const gaveOut = (flood: Flood, seen: Sighting, now: MonotonicMillis): boolean => {
  const { phase, goneSince: since } = flood;
  if (phase.kind !== 'running' || since === null || stillThere(flood, seen) !== 'not-seen') return false;
  return now >= afterMinutes(since, GONE_MINUTES) || (now >= phase.endsAt && now > since);
};

/** Whether this attempt has had no power; where a sensor has told of water that nobody believes since, it takes both signs. */
const powerless = ({ waterFirstAt: told, contact, current, mains }: Flood): boolean => {
  if (told !== null) return contact === 'not-seen' && current === 'not-seen';
  return current === 'not-seen' || (current !== 'seen' && (contact === 'not-seen' || mains === 'not-seen'));
};

/**
 * Whether this attempt has failed: no water after the lag or, where nothing can see water, no power; or what there was is
 * gone. A current sensor that lies must not cut short a flood whose water can be seen.
 */
const failed = (flood: Flood, seen: Sighting, now: MonotonicMillis): boolean => {
  if (unsettled(flood.unwatchedUntil, now)) return false;
  if (gaveOut(flood, seen, now)) return true;
  if (seen.water === 'unknown') return powerless(flood);
  if (flood.waterFirstAt !== null) return false;
  // A meter that speaks again says zero first.
  return seen.water === 'not-seen' && now >= patienceEnds(flood) && !unsettled(flood.readableSince, now);
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
  // A level sensor alone stops no pump that may give water: nothing is tried again by its word.
  if (now >= deadlineOf(farm, flood) && tankDenies(farm, flood))
    return { kind: 'over', flood, verdict: missedByTank(farm, flood, usualLitresPerMinute) };
  if (now < phase.endsAt) return { kind: 'going', flood, pump: phase.kind === 'running' ? 'on' : 'off' };
  const lagEnds = afterMinutes(flood.attemptAt, flood.lagMinutes);
  if (seen.water === 'not-seen' && flood.waterFirstAt === null && now < lagEnds) {
    return { kind: 'going', flood: { ...flood, phase: { kind: 'draining', endsAt: lagEnds } }, pump: 'off' };
  }
  return { kind: 'over', flood, verdict: closing(farm, flood, usualLitresPerMinute) };
};

const LOOK_SECONDS = 30;

/** When the flood wants to be looked at next: also when an attempt may have failed, for what is late there adds up. */
export const nextLook = (flood: Flood, now: MonotonicMillis): MonotonicMillis => {
  const { goneSince: since, phase } = flood;
  const fails = [patienceEnds(flood), ...(since === null ? [] : [afterMinutes(since, GONE_MINUTES)])];
  const moments = [phase.endsAt, afterSeconds(now, LOOK_SECONDS), ...fails.filter((moment) => moment > now)];
  return monotonicMillis(Math.max(now + 1000, Math.min(...moments)));
};
