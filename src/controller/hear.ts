import { acknowledged } from '../alarm/alarm.ts';
import { seenNow } from '../alarm/voices.ts';
import { current, floodOrdered } from '../command/orders.ts';
import { asSet, confirmed, inDoubt } from '../time/clock-trust.ts';
import { absorbed } from '../sense/senses.ts';
import type { Event } from './event.ts';
import { linked } from './hear-link.ts';
import { holdOrdered, holdReleased } from './hold-ordered.ts';
import { heardPast } from './past.ts';
import { turnedTo, type Turn } from './turn.ts';

/** Takes in the event: what the board saw, or what a person ordered. */
export const hear = (turn: Turn, event: Event): Turn => {
  const { state, now } = turn;
  const orders = current(state.orders, now.monotonic);
  switch (event.kind) {
    case 'time':
      return turnedTo(turn, { orders });
    case 'samples':
      return turnedTo(turn, { orders, senses: absorbed(state.senses, event.samples, now.monotonic) });
    case 'link':
      return linked(turnedTo(turn, { orders }), event.link);
    case 'hold':
      return holdOrdered(turn, orders, event);
    case 'release':
      return holdReleased(turn, orders, event.who);
    case 'flood-now': {
      const { who } = event;
      const refused = orders.hold === null ? null : 'refused: the benches are held';
      const says = refused ?? (state.flood === null ? 'flood now' : 'refused: a flood is under way');
      const wanted = state.flood === null ? floodOrdered(orders, who, now.monotonic) : orders;
      return turnedTo(turn, { orders: wanted }, [{ kind: 'order', order: 'flood-now', who, says }]);
    }
    case 'acknowledge': {
      const { alarms, changes } = acknowledged(state.alarms, event.alarm, event.who, now.monotonic);
      const voices =
        changes.length === 0 ? state.calls.voices : seenNow(state.calls.voices, event.alarm, event.who);
      return turnedTo(
        turn,
        { orders, alarms, calls: { ...state.calls, voices } },
        changes.map(() => ({ kind: 'alarm-acknowledged', alarm: event.alarm, who: event.who })),
      );
    }
    case 'clock-right': {
      const { who } = event;
      if (!inDoubt(state.clock)) {
        const says = 'says that the clock is right, which nobody doubts';
        return turnedTo(turn, { orders }, [{ kind: 'order', order: 'clock-right', who, says }]);
      }
      const { alarms, changes } = acknowledged(state.alarms, 'clock-stepped', who, now.monotonic);
      return turnedTo(turn, { orders, alarms, clock: confirmed(state.clock) }, [
        { kind: 'order', order: 'clock-right', who, says: 'the clock is right as it is now' },
        ...changes.map(() => ({ kind: 'alarm-acknowledged', alarm: 'clock-stepped', who }) as const),
      ]);
    }
    case 'clock-set':
      return turnedTo(turn, { orders, clock: asSet(state.clock) });
    case 'shelve':
      // For how long it may be put off hangs on the time left, which is known only further on: see `shelve.ts`.
      return turnedTo(turn, { orders });
    case 'host':
      return turnedTo(turn, { orders, host: event.health });
    case 'past':
      return heardPast(turnedTo(turn, { orders }), event.past);
  }
};
