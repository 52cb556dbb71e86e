import { lifeEnds } from '../alarm-log.ts';
import { isKeptTold } from '../kept-told.ts';
import { isLost, waitedForRoom } from '../lost-records.ts';
import { rowsOf, type Breach, type Check } from '../record.ts';
import { disturbed, HOST_AWAY, RELAY_BROKEN } from '../stretches.ts';

/** A pump follows its command at once; the steps of the plant are finer than this. */
const FOLLOWS_MILLIS = 1500;

/** I5: the journal tells nothing twice, floods are numbered one by one, and every run of the pump is in it, but for what a power cut took from memory while the disk was broken. */
export const journalTruth: Check = (record) => {
  const { rows, truth, endMillis, farm } = record;
  const breaches: Breach[] = [];
  const say = (atMillis: number, words: string): void => {
    breaches.push({ invariant: 'I5', atMillis, words });
  };
  const ends = lifeEnds(record);
  // A host that begins anew counts on from what the one before had begun.
  let due = 1;
  let lastBeginsMillis = -Infinity;
  const seen = new Set<string>();
  for (const { life, atMillis, entry } of rows) {
    const text = JSON.stringify(entry);
    const key = `${life} ${text}`;
    if (seen.has(key)) say(atMillis, `${entry.kind} stands twice`);
    seen.add(key);
    // A flood that was withheld before its start has its verdict alone.
    const unbegun = entry.kind === 'verdict' && entry.flood >= due && entry.verdict.kind !== 'withheld';
    if (unbegun && !isLost(record, { fromMillis: atMillis, untilMillis: atMillis })) {
      say(atMillis, `flood ${entry.flood} was judged and never begun`);
    }
    const begins = entry.kind === 'flood-started' || (entry.kind === 'verdict' && entry.flood >= due);
    if (!begins) continue;
    const missing =
      entry.flood > due && isLost(record, { fromMillis: lastBeginsMillis, untilMillis: atMillis });
    lastBeginsMillis = atMillis;
    // Begun and stopped with one look; before a full disk the verdict goes first.
    const outOfTurn =
      entry.kind === 'flood-started' && entry.flood === due - 1 && waitedForRoom(record, atMillis);
    if (outOfTurn) continue;
    if (entry.flood !== due && !missing) say(atMillis, `flood ${entry.flood} where ${due} was the next`);
    due = entry.flood + 1;
  }

  const asked = rowsOf(record, 'pump-asked').filter(({ entry }) => entry.pump === 'on');
  const askedOff = rowsOf(record, 'pump-asked').filter(({ entry }) => entry.pump === 'off');
  const begun = rowsOf(record, 'flood-started');
  /** Asked on for a flood and off again at once, a pump may never have turned. */
  const takenBack = (onMillis: number): boolean =>
    begun.some(({ atMillis }) => atMillis === onMillis) &&
    askedOff.some(({ atMillis }) => atMillis >= onMillis && atMillis - onMillis <= FOLLOWS_MILLIS);
  const near = (one: number, other: number): boolean => Math.abs(one - other) <= FOLLOWS_MILLIS;
  for (const run of truth.runs) {
    if (disturbed(record, RELAY_BROKEN, run, 1, 1)) continue;
    if (isLost(record, { fromMillis: run.fromMillis, untilMillis: run.fromMillis })) continue;
    if (isKeptTold(record, run)) continue;
    if (!asked.some(({ atMillis }) => near(atMillis, run.fromMillis)))
      say(run.fromMillis, 'the pump ran and nobody had asked it to');
  }
  for (const { atMillis, life } of asked) {
    const span = { fromMillis: atMillis, untilMillis: atMillis };
    if (disturbed(record, RELAY_BROKEN, span, 1, 1) || disturbed(record, HOST_AWAY, span, 2, 0.1)) continue;
    if (atMillis + FOLLOWS_MILLIS > Math.min(endMillis, ends.get(life) ?? endMillis)) continue;
    if (takenBack(atMillis)) continue;
    if (!truth.runs.some(({ fromMillis }) => near(atMillis, fromMillis))) {
      say(atMillis, `the pump of ${farm.farm} was asked on and did not run`);
    }
  }
  return breaches;
};
