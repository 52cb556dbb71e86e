import { alarmSpans, type AlarmName } from '../alarm-log.ts';
import type { Breach, Check } from '../record.ts';
import { disturbed, litresInto, MINUTE, NO_WATER, SENSORS_LIE } from '../stretches.ts';

/** A host that has begun anew finds a missing flood again by the deadline of its first one. */
const FOUND_AGAIN_MINUTES = 45;
/** Alarms about water that is missing. */
const DRY: readonly AlarmName[] = ['missed-flood', 'mains-lost', 'tank-low', 'drying-out', 'float-suspect'];

/** I7: an alarm returns only when it stood, a missed flood only after water, and none is lost over a new start. */
export const alarmTruth: Check = (record) => {
  const breaches: Breach[] = [];
  const say = (atMillis: number, words: string): void => {
    breaches.push({ invariant: 'I7', atMillis, words });
  };
  const standing = new Set<string>();
  for (const { entry, atMillis } of record.rows) {
    if (entry.kind === 'started') standing.clear();
    if (entry.kind === 'alarm-raised') {
      if (standing.has(entry.alarm)) say(atMillis, `alarm "${entry.alarm}" was raised while it stood`);
      standing.add(entry.alarm);
    }
    if (entry.kind === 'alarm-returned' && !standing.delete(entry.alarm)) {
      say(atMillis, `alarm "${entry.alarm}" returned and did not stand`);
    }
  }
  const spans = alarmSpans(record);
  for (const span of spans) {
    if (span.alarm !== 'missed-flood' || !span.returned) continue;
    if (litresInto(record, span) < 1 && !disturbed(record, SENSORS_LIE, span, 60)) {
      say(span.untilMillis, 'the alarm of a missed flood returned, and no water had come');
    }
  }
  for (const { life, atMillis, entry } of record.rows) {
    if (entry.kind !== 'started' || life === 1) continue;
    const stood = spans.some((span) => span.life === life - 1 && !span.returned && DRY.includes(span.alarm));
    const watch = { fromMillis: atMillis, untilMillis: atMillis + FOUND_AGAIN_MINUTES * MINUTE };
    const quiet = !disturbed(
      record,
      [
        'host-frozen',
        'host-killed',
        'late-ticks',
        'hold',
        'link-lost',
        'link-flapping',
        'board-reset',
        ...SENSORS_LIE,
      ],
      {
        fromMillis: atMillis + 1,
        untilMillis: watch.untilMillis,
      },
    );
    const dry = record.broken.some(
      ({ name, fromMillis, untilMillis }) =>
        NO_WATER.slice(0, 4).includes(name) && fromMillis < atMillis && untilMillis > watch.untilMillis,
    );
    if (!stood || !quiet || !dry || watch.untilMillis >= record.endMillis) continue;
    const again = spans.some(
      (span) => span.life === life && DRY.includes(span.alarm) && span.fromMillis <= watch.untilMillis,
    );
    if (!again)
      say(
        watch.untilMillis,
        `an alarm on water was lost when the host began anew, and not found in ${FOUND_AGAIN_MINUTES} min`,
      );
  }
  return breaches;
};
