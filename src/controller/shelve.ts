import { shelfEnded, shelving } from '../alarm/shelving.ts';
import type { TimeLeft } from '../estimate/time-left.ts';
import type { Event } from './event.ts';
import { alarmSaid } from './said.ts';
import { turnedTo, type Turn } from './turn.ts';

/** Puts an alarm off as a person asked, for no longer than the benches allow; or says why not. */
export const shelve = (turn: Turn, event: Event, left: () => TimeLeft): Turn => {
  if (event.kind !== 'shelve') return turn;
  const { state, now } = turn;
  const { alarm, minutes, who } = event;
  // It speaks again in the next step, as when its time is over.
  if (minutes <= 0) return turnedTo(turn, { alarms: shelfEnded(state.alarms, alarm, now.monotonic) });
  const done = shelving(state.alarms, event, () => left().minutes, now.monotonic);
  return done.kind === 'refused'
    ? turnedTo(turn, {}, [{ kind: 'shelve-refused', alarm, who, why: done.why }])
    : turnedTo(
        turn,
        { alarms: done.alarms },
        done.changes.map((change) => alarmSaid(change, now.monotonic)),
      );
};
