import { afterMinutes, type MonotonicMillis } from '../time/instant.ts';

/** What a person has ordered and not yet taken back. A hold always ends by itself. */
export interface Orders {
  readonly hold: {
    readonly from: MonotonicMillis;
    readonly until: MonotonicMillis;
    readonly who: string;
  } | null;
  readonly floodNow: string | null;
}

export const NO_ORDERS: Orders = { hold: null, floodNow: null };

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

/**
 * One of no length at all holds nothing. None ends a hold that stands, nor cuts it short: of two the longer one counts, for it may
 * be somebody else's hands that are in the water. Whoever wants a shorter one releases first.
 */
export const held = (orders: Orders, who: string, minutes: number, now: MonotonicMillis): Orders => {
  const lasts = holdMinutes(minutes);
  if (lasts === 0) return orders;
  const until = afterMinutes(now, lasts);
  const longer = orders.hold !== null && orders.hold.until > until ? orders.hold : { from: now, until, who };
  return { ...orders, floodNow: null, hold: longer };
};

export const released = (orders: Orders): Orders => ({ ...orders, hold: null });

/** Under a hold the order is dropped: hands may be in the water. */
export const floodOrdered = (orders: Orders, who: string): Orders =>
  orders.hold === null ? { ...orders, floodNow: who } : orders;

export const floodServed = (orders: Orders): Orders => ({ ...orders, floodNow: null });

/** Orders whose time is over are dropped. */
export const current = (orders: Orders, now: MonotonicMillis): Orders =>
  orders.hold !== null && orders.hold.until <= now ? { ...orders, hold: null } : orders;
