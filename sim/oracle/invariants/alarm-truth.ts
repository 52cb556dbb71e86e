import type { Breach, Check } from '../record.ts';

/** From the least on. */
const GRAVITIES = ['low', 'medium', 'high'];

/**
 * I7: an alarm returns only when it stood. A host that begins anew goes on with what stood:
 * what it had forgotten it would raise a second time. Raised anew while it stands is only what has become graver.
 */
export const alarmTruth: Check = (record) => {
  const breaches: Breach[] = [];
  const say = (atMillis: number, words: string): void => {
    breaches.push({ invariant: 'I7', atMillis, words });
  };
  const standing = new Map<string, number>();
  for (const { entry, atMillis } of record.rows) {
    if (entry.kind === 'alarm-raised') {
      const gravity = GRAVITIES.indexOf(entry.priority);
      if (gravity <= (standing.get(entry.alarm) ?? -1))
        say(atMillis, `alarm "${entry.alarm}" was raised while it stood, and no graver`);
      standing.set(entry.alarm, gravity);
    }
    if (entry.kind === 'alarm-returned' && !standing.delete(entry.alarm)) {
      say(atMillis, `alarm "${entry.alarm}" returned and did not stand`);
    }
  }
  return breaches;
};
