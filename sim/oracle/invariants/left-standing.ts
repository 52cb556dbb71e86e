import { alarmSpans } from '../alarm-log.ts';
import { deathsIn, deathsUntimed } from '../deaths.ts';
import type { Breach, Check } from '../record.ts';
import { MINUTE } from '../stretches.ts';
import { isExplained } from './causes.ts';

/** With nothing broken for so long no alarm has a cause left. */
const LEFT_MINUTES = 12 * 60;

/** I7, its other half: an alarm whose condition has gone does not stand for ever. */
export const leftStanding: Check = (record) => {
  const { startMillis, endMillis, clearMillis } = record;
  if (endMillis - clearMillis < LEFT_MINUTES * MINUTE) return [];
  const ever = { fromMillis: startMillis, untilMillis: endMillis };
  return alarmSpans(record).flatMap(({ alarm, returned, fromMillis, untilMillis }): readonly Breach[] => {
    if (returned || untilMillis < endMillis || fromMillis > endMillis - LEFT_MINUTES * MINUTE) return [];
    if (isExplained(record, alarm, endMillis, LEFT_MINUTES)) return [];
    // A host that began under a clock that was wrong has nothing to hold it against: somebody must say that it is right.
    if (alarm === 'clock-stepped' && deathsUntimed(record, deathsIn(record, ever))) return [];
    // A webhook cannot be looked at without a message: it stays called dead until the next one goes through it.
    if (
      alarm === 'channel-dead' &&
      record.broken.some(({ name, way }) => way === 'webhook' || name === 'network-gone')
    )
      return [];
    return [
      {
        invariant: 'I7',
        atMillis: endMillis,
        words: `alarm "${alarm}" stands at the end, with nothing broken for ${LEFT_MINUTES / 60} h`,
      },
    ];
  });
};
