import type { Breach, Check, RunRecord, Stretch } from '../record.ts';

/** From the least on. */
const GRAVITIES = ['low', 'medium', 'high'];

/** Whether a way to people truly went at some moment of a stretch in which it had been told dead. */
const wentBetween = ({ broken }: RunRecord, name: string, { fromMillis, untilMillis }: Stretch): boolean => {
  const blocks = broken.filter(
    (one) =>
      one.name === 'network-gone' ||
      ((one.name === 'channel-hung' || one.name === 'channel-refusing') && one.way === name),
  );
  return blocks.some(
    ({ untilMillis: end }) =>
      end > fromMillis &&
      end < untilMillis &&
      blocks.every((one) => one.fromMillis > end || one.untilMillis <= end),
  );
};

/**
 * I7: an alarm returns only when it stood. A host that begins anew goes on with what stood:
 * what it had forgotten it would raise a second time. Raised anew while it stands is only what has become graver, and what tells
 * of one more dead channel.
 */
export const alarmTruth: Check = (record) => {
  const breaches: Breach[] = [];
  const say = (atMillis: number, words: string): void => {
    breaches.push({ invariant: 'I7', atMillis, words });
  };
  const standing = new Map<string, number>();
  const channels = new Set(record.tries.map(({ channel }) => channel));
  let toldDead: readonly string[] = [];
  let toldMillis = record.startMillis;
  for (const { entry, atMillis } of record.rows) {
    if (entry.kind === 'alarm-raised') {
      const gravity = GRAVITIES.indexOf(entry.priority);
      const dead =
        entry.alarm === 'channel-dead' ? [...channels].filter((name) => entry.text.includes(name)) : [];
      const since = { fromMillis: toldMillis, untilMillis: atMillis };
      const joined = dead.some((name) => !toldDead.includes(name) || wentBetween(record, name, since));
      if (entry.alarm === 'channel-dead') [toldDead, toldMillis] = [dead, atMillis];
      if (gravity <= (standing.get(entry.alarm) ?? -1) && !joined)
        say(atMillis, `alarm "${entry.alarm}" was raised while it stood, and no graver`);
      standing.set(entry.alarm, gravity);
    }
    if (entry.kind === 'alarm-returned' && !standing.delete(entry.alarm)) {
      say(atMillis, `alarm "${entry.alarm}" returned and did not stand`);
    }
  }
  return breaches;
};
