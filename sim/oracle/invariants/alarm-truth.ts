import { alarmSpans } from '../alarm-log.ts';
import type { Breach, Check } from '../record.ts';
import { disturbed, litresInto, SENSORS_LIE } from '../stretches.ts';

/**
 * I7: an alarm returns only when it stood, and a missed flood only after water. A host that begins anew goes on with what stood:
 * what it had forgotten it would raise a second time.
 */
export const alarmTruth: Check = (record) => {
  const breaches: Breach[] = [];
  const say = (atMillis: number, words: string): void => {
    breaches.push({ invariant: 'I7', atMillis, words });
  };
  const standing = new Set<string>();
  for (const { entry, atMillis } of record.rows) {
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
  return breaches;
};
