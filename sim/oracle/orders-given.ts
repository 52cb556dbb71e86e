import { deadMillisIn } from './deaths.ts';
import type { OrderGiven, RunRecord } from './record.ts';
import { MINUTE } from './stretches.ts';

/** A hold of a length: it stops the pump. */
export const isHold = ({ order, minutes }: OrderGiven): boolean =>
  order === 'hold' && minutes !== null && minutes > 0;

/** Whether somebody's hold may stand at a moment: where nobody was there meanwhile, it may not have gone on. */
export const isHeld = (record: RunRecord, atMillis: number): boolean => {
  const last = record.orders.findLast(
    (one) => one.atMillis < atMillis && (isHold(one) || one.order === 'release'),
  );
  if (last?.minutes === undefined || last.minutes === null) return false;
  const dead = deadMillisIn(record, { fromMillis: last.atMillis, untilMillis: atMillis });
  return atMillis <= last.atMillis + last.minutes * MINUTE + dead;
};

/** Whether an order asks for something that can be: else it must change nothing. */
export const means = (record: RunRecord, given: OrderGiven): boolean => {
  switch (given.order) {
    case 'hold':
      return isHold(given);
    case 'release':
      // A board that keeps the plants may be held by its own button.
      return record.keeps === true || isHeld(record, given.atMillis);
    case 'flood-now':
    case 'acknowledge':
      // Under a hold, or of what does not stand: that is for the journal to say.
      return true;
  }
};
