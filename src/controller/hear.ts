import { acknowledged } from '../alarm/alarm.ts';
import { holdText } from '../alarm/situation.ts';
import { current, floodOrdered, held, holdMinutes, released } from '../command/orders.ts';
import { confirmed } from '../time/clock-trust.ts';
import { absorbed } from '../sense/senses.ts';
import type { Link } from '../ports/board.ts';
import { guardAtStart } from '../command/pump-guard.ts';
import type { Event } from './event.ts';
import { toldOff } from './told-off.ts';
import { turnedTo, type Turn } from './turn.ts';

/**
 * With the link down nobody knows what the pump does, and no command is sent; when it is up again the first
 * word is off, as after a start.
 */
const linked = (turn: Turn, link: Link): Turn => {
  const { state, now } = turn;
  if (link.kind === state.link.kind) return turnedTo(turn, { link });
  const guard = guardAtStart(now.monotonic);
  if (link.kind === 'down') {
    return turnedTo(
      turn,
      { link, linkDownSince: now.monotonic, guard: { ...state.guard, asked: guard.asked } },
      [{ kind: 'link-lost', why: link.why }],
    );
  }
  const back = turnedTo(turn, { link, linkDownSince: null }, [{ kind: 'link-found' }]);
  return toldOff(back);
};

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
      return turnedTo(turn, { orders: held(orders, event.who, event.minutes, now.monotonic) }, [
        { kind: 'order', order: 'hold', who: event.who, says: holdText(holdMinutes(event.minutes)) },
      ]);
    case 'release':
      return turnedTo(turn, { orders: released(orders) }, [
        { kind: 'order', order: 'release', who: event.who, says: 'hold ended' },
      ]);
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
      const { alarms, changes } = acknowledged(state.alarms, event.alarm, event.who);
      const clock = event.alarm === 'clock-stepped' ? confirmed(state.clock) : state.clock;
      return turnedTo(
        turn,
        { orders, alarms, clock },
        changes.map(() => ({ kind: 'alarm-acknowledged', alarm: event.alarm, who: event.who })),
      );
    }
  }
};
