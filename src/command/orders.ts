import { afterMinutes, type MonotonicMillis } from '../time/instant.ts';

/** Who holds the pump, and until when: it always ends by itself. */
export interface Hold {
  readonly from: MonotonicMillis;
  readonly until: MonotonicMillis;
  readonly who: string;
}

/** What people have ordered and not yet taken back; each has a hold of their own. */
export interface Orders {
  /** The one that ends last. */
  readonly hold: Hold | null;
  /** Those that end before it, the last first. */
  readonly others: readonly Hold[];
  /** Who wants a flood, and until when it is worth something. */
  readonly floodNow: { readonly who: string; readonly until: MonotonicMillis } | null;
}

export const NO_ORDERS: Orders = { hold: null, others: [], floodNow: null };

/** The longest hold that one order may ask for; a longer stop is a pulled plug. */
export const HOLD_MINUTES_MAX = 240;

/**
 * So long no flood is given while nobody knows whether a person holds the pump: hands in the water have no time at all.
 * The plants have: a bench that has just been flooded lives for an hour and more, and one that has not is told by the same
 * alarms as ever. A book on a slow card has opened long before; one that never opens must not cost the crop. Judgement.
 */
export const PAST_UNREAD_MINUTES = 10;

/** How long a hold of so many minutes lasts. One of unreadable length stops the pump too, and ends too. */
export const holdMinutes = (asked: number): number =>
  Number.isNaN(asked) ? HOLD_MINUTES_MAX : Math.min(HOLD_MINUTES_MAX, Math.max(0, asked));

/** More people than these are not about one pump; of more, those count that hold it longest. */
const HOLDS_MAX = 20;

export const holdsOf = ({ hold, others }: Pick<Orders, 'hold' | 'others'>): readonly Hold[] =>
  hold === null ? [] : [hold, ...others];

const ofHolds = (orders: Orders, holds: readonly Hold[]): Orders => {
  const [hold = null, ...others] = [...holds].sort((a, b) => b.until - a.until).slice(0, HOLDS_MAX);
  return { ...orders, hold, others };
};

/** One hold more; of two by the same name the longer counts, for many may share a button. */
export const withHold = (orders: Orders, added: Hold): Orders => {
  const holds = holdsOf(orders);
  const before = holds.find(({ who }) => who === added.who);
  if (before !== undefined && before.until > added.until) return { ...orders, floodNow: null };
  return ofHolds({ ...orders, floodNow: null }, [...holds.filter((one) => one !== before), added]);
};

export const withoutHold = (orders: Orders, who: string): Orders =>
  ofHolds(
    orders,
    holdsOf(orders).filter((one) => one.who !== who),
  );

/**
 * One of no length at all holds nothing. None ends a hold that stands, nor cuts it short: other hands may be in the water.
 * Whoever wants a shorter one releases first.
 */
export const held = (orders: Orders, who: string, minutes: number, now: MonotonicMillis): Orders => {
  const lasts = holdMinutes(minutes);
  return lasts === 0 ? orders : withHold(orders, { from: now, until: afterMinutes(now, lasts), who });
};

/** Whoever holds the pump ends their own hold and no other; whoever does not ends all, as one that was forgotten. */
export const released = (orders: Orders, who: string): Orders =>
  holdsOf(orders).some((one) => one.who === who) ? withoutHold(orders, who) : ofHolds(orders, []);

/** What cannot begin within this comes as a surprise: nobody stands by any more. Judgement. */
const FLOOD_NOW_MINUTES = 10;

/** Under a hold the order is dropped: hands may be in the water. */
export const floodOrdered = (orders: Orders, who: string, now: MonotonicMillis): Orders =>
  orders.hold === null
    ? { ...orders, floodNow: { who, until: afterMinutes(now, FLOOD_NOW_MINUTES) } }
    : orders;

export const floodServed = (orders: Orders): Orders => ({ ...orders, floodNow: null });

/** Orders whose time is over are dropped. */
export const current = (orders: Orders, now: MonotonicMillis): Orders => {
  const stands = ({ until }: { readonly until: MonotonicMillis }): boolean => until > now;
  const { floodNow } = orders;
  const holds = holdsOf(orders);
  const wanted = floodNow === null || stands(floodNow) ? orders : { ...orders, floodNow: null };
  return holds.every(stands) ? wanted : ofHolds(wanted, holds.filter(stands));
};
