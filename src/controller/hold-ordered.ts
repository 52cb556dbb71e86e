import { holdText } from '../alarm/words.ts';
import { held, holdMinutes, released, type Orders } from '../command/orders.ts';
import { minutesBetween } from '../time/instant.ts';
import type { Event } from './event.ts';
import { ordered } from './ordered.ts';
import { isHeardKeeper } from './state.ts';
import { turnedTo, type Turn } from './turn.ts';

/** A hold that the board does not hear stops nothing: whoever has hands in the water must know. */
const UNHEARD = '; the board does not hear it, and the pump may run: pull the plug';
/** And one that it does not hear the end of goes on there. */
const HELD_ON = '; the board does not hear it, and may hold on';

/** Somebody holds the pump. */
export const holdOrdered = (
  turn: Turn,
  orders: Orders,
  { who, minutes }: Extract<Event, { kind: 'hold' }>,
): Turn => {
  const { state, now } = turn;
  const order = { kind: 'order', order: 'hold', who } as const;
  // Of no length it tells the board nothing either: what its button holds stays held.
  if (holdMinutes(minutes) === 0)
    return turnedTo(turn, { orders }, [{ ...order, says: 'refused: a hold of no length' }]);
  const after = held(orders, who, minutes, now.monotonic);
  const longer =
    after.hold === null || after.hold.from === now.monotonic ? '' : `; that by ${after.hold.who} ends later`;
  const unheard = state.link.kind === 'down' ? UNHEARD : '';
  return ordered(turn, after, { ...order, says: `${holdText(holdMinutes(minutes))}${longer}${unheard}` });
};

const endedWords = ({ state, now }: Turn, before: Orders, after: Orders): string => {
  // A board that keeps the plants may be held by its button, and is told.
  if (before.hold === null) return isHeardKeeper(state) ? 'hold ended' : 'refused: nothing is held';
  const standing =
    after.hold === null
      ? ''
      : `; ${holdText(minutesBetween(now.monotonic, after.hold.until))} by ${after.hold.who} goes on`;
  return `hold ended${standing}${state.away?.keeper === 'keeps' ? HELD_ON : ''}`;
};

/** Somebody ends a hold. */
export const holdReleased = (turn: Turn, orders: Orders, who: string): Turn => {
  const after = released(orders, who);
  return ordered(turn, after, {
    kind: 'order',
    order: 'release',
    who,
    says: endedWords(turn, orders, after),
  });
};
