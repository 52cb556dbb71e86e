import type { HoldCommand } from '../ports/board.ts';
import { secondsBetween, type MonotonicMillis } from '../time/instant.ts';
import type { Orders } from './orders.ts';

/** What a board that holds by itself must hear for the orders to stand there too, also when this host dies. */
export const holdCommand = ({ hold }: Orders, now: MonotonicMillis): HoldCommand =>
  hold === null ? { kind: 'release' } : { kind: 'hold', longest: secondsBetween(now, hold.until) };
