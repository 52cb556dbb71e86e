import type { Event } from '../../src/controller.ts';
import type { OrderGiven } from '../oracle/record.ts';
import { meets, type Script, type Span } from './script.ts';

const MINUTE = 60_000;
const HOLD_MINUTES = 30;
/** People press again and again. */
const EVERY_MINUTES = { 'odd-orders': 4, 'flood-now': 7 } as const;

/** An order of a person with its moment. */
export interface Ordered {
  readonly atMillis: number;
  readonly by: 'hold' | 'odd-orders' | 'flood-now';
  readonly event: Extract<Event, { kind: OrderGiven['order'] }>;
}

/** For the judge: what was asked, whatever the host has heard. */
export const givenAs = ({ atMillis, event }: Ordered): OrderGiven => ({
  atMillis,
  order: event.kind,
  who: event.who,
  minutes: event.kind === 'hold' ? event.minutes : null,
  alarm: event.kind === 'acknowledge' ? event.alarm : null,
});

/** Orders that mean nothing: they must change nothing, whatever stands at their moment. */
const ODD: readonly Ordered['event'][] = [
  { kind: 'release', who: 'a stray request' },
  { kind: 'acknowledge', alarm: 'weak-flow', who: 'a bad request' },
  { kind: 'hold', minutes: 0, who: 'a bad request' },
  { kind: 'hold', minutes: -30, who: 'a bad request' },
  { kind: 'acknowledge', alarm: 'drying-out', who: 'a bad request' },
];

/** What would mean something, and end a hold that stands. */
const ends = ({ event }: Ordered): boolean => event.kind === 'release';

/** Every order of the run, in the order of time. Nobody releases a hold that stands: that order has a meaning. */
export const ordersOf = ({ host }: Script): readonly Ordered[] => {
  const holds: readonly Span[] = host.filter(({ kind }) => kind === 'hold');
  return host
    .flatMap((fault): readonly Ordered[] => {
      const { kind, fromMillis, untilMillis } = fault;
      if (kind === 'hold') {
        const event: Ordered['event'] = { kind: 'hold', minutes: HOLD_MINUTES, who: 'somebody' };
        return [{ atMillis: fromMillis, by: kind, event }];
      }
      if (kind !== 'odd-orders' && kind !== 'flood-now') return [];
      const every = EVERY_MINUTES[kind] * MINUTE;
      return Array.from({ length: Math.ceil((untilMillis - fromMillis) / every) }, (_, place) => ({
        atMillis: fromMillis + place * every,
        by: kind,
        event: (kind === 'odd-orders' ? ODD[place % ODD.length] : null) ?? {
          kind: 'flood-now',
          who: 'somebody',
        },
      }));
    })
    .filter(
      (one) =>
        one.by !== 'odd-orders' ||
        !ends(one) ||
        !holds.some((hold) => meets(hold, { fromMillis: one.atMillis, untilMillis: one.atMillis + 1 })),
    )
    .sort((one, other) => one.atMillis - other.atMillis);
};
