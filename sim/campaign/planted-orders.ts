import type { Event } from '../../src/controller.ts';
import { entriesOf, type Planted } from './planting.ts';

const OBEYED_MINUTES = 30;

const obeyed = (event: Event): Event =>
  event.kind === 'hold' && event.minutes <= 0 ? { ...event, minutes: OBEYED_MINUTES } : event;

/** Bugs of what is made of orders that mean nothing. */
export const PLANTED_ORDERS: readonly Planted[] = [
  {
    invariant: 'I10',
    says: 'a hold of no length holds for half an hour',
    needs: 'odd-orders',
    make: () => ({ event: obeyed }),
  },
  {
    invariant: 'I10',
    says: 'a hold of no length holds for half an hour, and its order is not written',
    needs: 'odd-orders',
    make: () => ({
      event: obeyed,
      ...entriesOf(() => (entry) => (entry.kind === 'order' && entry.who !== 'somebody' ? [] : [entry]))(),
    }),
  },
];
