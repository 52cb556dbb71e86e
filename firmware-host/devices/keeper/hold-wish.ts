import type { HoldCommand } from '../../../src/ports/board.ts';
import { afterSeconds, secondsBetween, type MonotonicMillis } from '../../../src/time/instant.ts';
import type { HostMessage } from './host-message.ts';

/** A hold that the board has not yet confirmed. Once it has, it keeps the hold by itself, and its button may change it. */
export type HoldWish =
  | { readonly kind: 'none' }
  | { readonly kind: 'hold'; readonly until: MonotonicMillis; readonly longPresses: number }
  | { readonly kind: 'release'; readonly longPresses: number };

export const NO_HOLD_WISH: HoldWish = { kind: 'none' };

/** The longest that a board takes from a host. */
const HOLD_SECONDS_MAX = 4 * 3600;

/** `longPresses` that the board had told of when it was ordered: a later one is by hands that the order did not know of. */
export const holdWishOf = (command: HoldCommand, longPresses: number, now: MonotonicMillis): HoldWish =>
  command.kind === 'release'
    ? { kind: 'release', longPresses }
    : {
        kind: 'hold',
        until: afterSeconds(now, Math.min(HOLD_SECONDS_MAX, command.longest)),
        longPresses,
      };

/** The wish as the board is told it; null when there is none, or its time is over. */
export const holdMessage = (wish: HoldWish, epoch: number, now: MonotonicMillis): HostMessage | null => {
  switch (wish.kind) {
    case 'none':
      return null;
    case 'release':
      return { kind: 'hold', epoch, seconds: 0, longPresses: wish.longPresses };
    case 'hold': {
      // Rounded up: hands may be in the water until then.
      const seconds = Math.ceil(secondsBetween(now, wish.until));
      return seconds < 1 ? null : { kind: 'hold', epoch, seconds, longPresses: wish.longPresses };
    }
  }
};
