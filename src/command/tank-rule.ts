import type { Farm } from '../farm/farm.ts';
import { goodValue, type Reading } from '../sense/reading.ts';
import { afterMinutes, monotonicMillis, type MonotonicMillis } from '../time/instant.ts';
import type { Seen } from '../sense/seen.ts';

/** A low tank is not a dead stop: one stuck float must not kill the crop. */
const SIP_SECONDS = 20;
/** Every third sip is a trial pulse, long enough for the return to speak against a stuck float. */
const TRIAL_EVERY = 3;
const TRIAL_SECONDS = 180;
/** By then the channels of a stopped flood have drained and cannot pass for a tank that gives. */
export const SIP_REST_MINUTES = 10;

/** The sips so far; they have a budget of their own, one in ten minutes. */
export interface Sips {
  readonly count: number;
  readonly lastAt: MonotonicMillis | null;
}

export const NO_SIPS: Sips = { count: 0, lastAt: null };

export type TankRule =
  | { readonly kind: 'well' }
  /** `since` is when the tank was last well; `lowAt` when the float went low this time. */
  | { readonly kind: 'low'; readonly since: MonotonicMillis; readonly lowAt: MonotonicMillis }
  | { readonly kind: 'float-suspect'; readonly since: MonotonicMillis }
  /**
   * The float has let go, perhaps only because the channels have drained back: a shortened flood first. Once it has kept still over
   * that, floods are whole again, but only one of them takes the alarm away: it draws more.
   */
  | {
      readonly kind: 'returning';
      readonly since: MonotonicMillis;
      readonly shortFlood?: 'kept-still';
    };

export interface TankSigns {
  readonly float: Reading<boolean>;
  readonly water: Seen;
  readonly current: Seen;
  readonly litres: Reading<number>;
}

/**
 * Evidence, after a sip, that the tank is not dry though its float says so: a level that reads, or water that
 * comes back. A pump may draw current in air, so current speaks only where nothing else is fitted.
 */
const contradicted = (farm: Farm, signs: TankSigns): boolean => {
  const level = goodValue(signs.litres);
  if (farm.evidence.tankLevel && level !== undefined) return level > 2 * farm.tank.dryLitres;
  if (farm.evidence.returnFlow !== 'none') return signs.water === 'seen';
  return signs.current === 'seen';
};

/**
 * The tank-low rule. While the float reads low, floods are withheld and a sip is tried every ten minutes;
 * when the float is contradicted it is suspect, and shortened floods go on. When the float lets go it must
 * stay so over a shortened flood and a whole one (`tankProven`) before the tank counts as well. A float that a flood has drawn
 * low again is contradicted by none but a sip from then on: the water of that flood still comes back.
 */
export const tankRule = (
  farm: Farm,
  before: TankRule,
  signs: TankSigns,
  sips: Sips,
  now: MonotonicMillis,
): TankRule => {
  // A float that has not spoken yet, as after a start, or has fallen silent, has not let go either.
  if (farm.evidence.tankFloat && signs.float.quality !== 'good') return before;
  const low = farm.evidence.tankFloat && goodValue(signs.float) === true;
  switch (before.kind) {
    case 'well':
      return low ? { kind: 'low', since: now, lowAt: now } : before;
    case 'returning':
      return low ? { kind: 'low', since: before.since, lowAt: now } : before;
    case 'low': {
      if (!low) return { kind: 'returning', since: before.since };
      const tried = sips.lastAt !== null && sips.lastAt >= before.lowAt;
      return tried && contradicted(farm, signs) ? { kind: 'float-suspect', since: before.since } : before;
    }
    case 'float-suspect':
      return low ? before : { kind: 'returning', since: before.since };
  }
};

/** After a missed flood: nothing contradicts a float that reads low any more, so no dry pump is started for it. */
export const tankDenied = (rule: TankRule, now: MonotonicMillis): TankRule =>
  rule.kind === 'float-suspect' ? { kind: 'low', since: rule.since, lowAt: now } : rule;

/** After a flood that ran its time while the float kept still; `short` is one that got less than the plan wanted. */
export const tankProven = (rule: TankRule, flood: 'short' | 'whole'): TankRule => {
  if (rule.kind !== 'returning') return rule;
  return flood === 'whole' ? { kind: 'well' } : { ...rule, shortFlood: 'kept-still' };
};

/** Whether the tank lets floods be as long as the plan wants them. */
export const allowsWhole = (rule: TankRule): boolean =>
  rule.kind === 'well' || (rule.kind === 'returning' && rule.shortFlood !== undefined);

/** When the next sip may come: ten minutes after the last, or after the moment that stopped the floods. */
export const nextSipAt = (sips: Sips, since: MonotonicMillis): MonotonicMillis =>
  afterMinutes(monotonicMillis(Math.max(since, sips.lastAt ?? since)), SIP_REST_MINUTES);

/** Seconds of the next sip. */
export const sipSeconds = (sips: Sips): number =>
  sips.count % TRIAL_EVERY === TRIAL_EVERY - 1 ? TRIAL_SECONDS : SIP_SECONDS;
