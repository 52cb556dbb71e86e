import { acknowledged } from '../alarm/alarm.ts';
import { holdText } from '../alarm/words.ts';
import { current, floodOrdered, held, holdMinutes, released } from '../command/orders.ts';
import { confirmed } from '../time/clock-trust.ts';
import { absorbed } from '../sense/senses.ts';
import type { Event } from './event.ts';
import { linked } from './hear-link.ts';
import { ordered } from './ordered.ts';
import { heardPast } from './past.ts';
import { isHeardKeeper } from './state.ts';
import { turnedTo, type Turn } from './turn.ts';

/** A hold that the board does not hear stops nothing: whoever has hands in the water must know. */
const UNHEARD = '; the board does not hear it, and the pump may run: pull the plug';

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
    case 'hold': {
      // Of no length it tells the board nothing either: what its button holds stays held.
      if (holdMinutes(event.minutes) === 0)
        return turnedTo(turn, { orders }, [
          { kind: 'order', order: 'hold', who: event.who, says: 'refused: a hold of no length' },
        ]);
      const after = held(orders, event.who, event.minutes, now.monotonic);
      const longer = after.hold === orders.hold ? `; the longer one by ${after.hold?.who} stands` : '';
      const says = `${holdText(holdMinutes(event.minutes))}${longer}${state.link.kind === 'down' ? UNHEARD : ''}`;
      return ordered(turn, after, {
        kind: 'order',
        order: 'hold',
        who: event.who,
        says,
      });
    }
    case 'release':
      return ordered(turn, released(orders), {
        kind: 'order',
        order: 'release',
        who: event.who,
        // A board that keeps the plants may be held by its button, and is told.
        says: orders.hold === null && !isHeardKeeper(state) ? 'refused: nothing is held' : 'hold ended',
      });
    case 'flood-now':
      return turnedTo(turn, { orders: floodOrdered(orders, event.who) }, [
        {
          kind: 'order',
          order: 'flood-now',
          who: event.who,
          says: orders.hold === null ? 'flood now' : 'refused: the benches are held',
        },
      ]);
    case 'acknowledge': {
      const { alarms, changes } = acknowledged(state.alarms, event.alarm, event.who, now.monotonic);
      const clock = event.alarm === 'clock-stepped' ? confirmed(state.clock) : state.clock;
      return turnedTo(
        turn,
        { orders, alarms, clock },
        changes.map(() => ({ kind: 'alarm-acknowledged', alarm: event.alarm, who: event.who })),
      );
    }
    case 'shelve':
      // For how long it may be put off hangs on the time left, which is known only further on: see `shelve.ts`.
      return turnedTo(turn, { orders });
    case 'host':
      return turnedTo(turn, { orders, host: event.health });
    case 'past':
      return heardPast(turnedTo(turn, { orders }), event.past);
  }
};
