import { holdCommand } from '../command/hold-command.ts';
import type { Orders } from '../command/orders.ts';
import type { Happening } from '../journal/entry.ts';
import { isHeardKeeper } from './state.ts';
import { turnedTo, type Turn } from './turn.ts';

/** A hold begun or ended, here and on a board that holds by itself. */
export const ordered = (
  turn: Turn,
  orders: Orders,
  ...said: readonly Extract<Happening, { kind: 'order' }>[]
): Turn =>
  turnedTo(
    turn,
    { orders },
    said,
    isHeardKeeper(turn.state) ? [holdCommand(orders, turn.now.monotonic)] : [],
  );
