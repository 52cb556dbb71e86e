import type { Breach, Check } from '../record.ts';
import { rankOf } from '../../../src/journal/rank.ts';
import { isLost, waitedForRoom } from '../lost-records.ts';

/** I5: what the disk has acknowledged is in the journal, its numbers have no gap, and what was told to people is in it. */
export const durableRecord: Check = (record) => {
  const breaches: Breach[] = [];
  const say = (atMillis: number, words: string): void => {
    breaches.push({ invariant: 'I5', atMillis, words });
  };
  const rows = record.rows.toSorted((one, other) => one.seq - other.seq);
  rows.forEach(({ seq, atMillis, entry }, place) => {
    if (seq !== place + 1) say(atMillis, `${entry.kind} has the number ${seq} where ${place + 1} was due`);
  });
  const acknowledged = record.acknowledged.at(-1);
  if (acknowledged !== undefined && acknowledged.lastSeq > rows.length)
    say(acknowledged.atMillis, `${acknowledged.lastSeq} entries were acknowledged, ${rows.length} are there`);

  // What is grave may overtake the rest while the disk is full; among its like nothing overtakes anything.
  const last = new Map<string, { readonly life: number; readonly at: number }>();
  for (const { life, atMillis, entry } of rows) {
    const rank = waitedForRoom(record, atMillis) ? rankOf(entry.kind) : 'any';
    const before = last.get(rank);
    if (before?.life === life && entry.at < before.at && entry.kind !== 'delivery')
      say(atMillis, `${entry.kind} stands after what came later`);
    if (entry.kind !== 'delivery') last.set(rank, { life, at: entry.at });
  }

  const delivered = record.rows.flatMap(({ atMillis, entry }) =>
    entry.kind === 'delivery' && entry.outcome === 'delivered' ? [{ atMillis, entry }] : [],
  );
  const reached = record.tries.filter(({ outcome }) => outcome === 'reached');
  const rowKey = (one: {
    channel: string;
    form: string;
    person: string | null;
    alarm: string | null;
  }): string => [one.channel, one.form, one.person, one.alarm].join(' ');
  const counted = new Map<string, number>();
  for (const { entry } of delivered) counted.set(rowKey(entry), (counted.get(rowKey(entry)) ?? 0) + 1);
  const reachedAt = ({ endMillis, fromMillis }: (typeof reached)[number]): number => endMillis ?? fromMillis;
  const mayBeLost = (one: (typeof reached)[number]): boolean =>
    isLost(record, { fromMillis: reachedAt(one), untilMillis: reachedAt(one) });
  // Those whose record may be lost take what the others leave.
  for (const one of [...reached.filter((each) => !mayBeLost(each)), ...reached.filter(mayBeLost)]) {
    const left = counted.get(rowKey(one)) ?? 0;
    counted.set(rowKey(one), left - 1);
    const endMillis = reachedAt(one);
    if (left <= 0 && !mayBeLost(one))
      say(
        endMillis,
        `a message about "${one.alarm ?? ''}" reached ${one.person ?? one.channel} and is in no record`,
      );
  }
  for (const [key, left] of counted) if (left > 0) say(record.endMillis, `a delivery that never was: ${key}`);

  for (const { alarm, kind, calledMillis } of reached) {
    if (kind !== 'raised') continue;
    const raised = record.rows.some(
      ({ entry, atMillis }) =>
        entry.kind === 'alarm-raised' && entry.alarm === alarm && atMillis <= calledMillis + 1000,
    );
    if (!raised && !isLost(record, { fromMillis: calledMillis, untilMillis: calledMillis }))
      say(calledMillis, `somebody was called about "${alarm ?? ''}", and the journal has no such alarm`);
  }
  return breaches;
};
