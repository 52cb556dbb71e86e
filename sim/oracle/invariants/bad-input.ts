import type { Entry } from '../../../src/journal/entry.ts';
import { means } from '../orders-given.ts';
import { rowsOf, type Breach, type Check, type OrderGiven, type RunRecord } from '../record.ts';

/** What is heard is written down with the same look of the host. */
const HEARD_MILLIS = 2000;
/** Of a hold that the board's own button began. */
const THE_BOARD = 'the board';

/** Whether a value read back from the journal has a number that is none: JSON writes those as null. */
const outside = (value: number | null, least: number, most: number): boolean =>
  value === null || !Number.isFinite(value) || value < least || value > most;

const asked = (record: RunRecord, atMillis: number, so: (given: OrderGiven) => boolean): boolean =>
  record.orders.some(
    (given) => given.atMillis <= atMillis && atMillis <= given.atMillis + HEARD_MILLIS && so(given),
  );

/** Whoever has given orders to the pump, and never one that means something. */
const powerless = (record: RunRecord): readonly string[] => {
  const orders = record.orders.filter(({ order }) => order !== 'acknowledge');
  const heard = new Set(orders.filter((given) => means(record, given)).map(({ who }) => who));
  return [...new Set(orders.map(({ who }) => who))].filter((who) => !heard.has(who));
};

/** What names a person as the reason of what the pump does. */
const reasonOf = (entry: Entry): string => {
  if (entry.kind === 'flood-started' || entry.kind === 'sip') return entry.reason;
  return entry.kind === 'verdict' ? entry.verdict.says : '';
};

/** Orders: what means nothing is refused and stops, starts and ends nothing; what nobody asked for is in no record. */
const orders = (record: RunRecord): readonly Breach[] => {
  const breaches: Breach[] = [];
  const say = (atMillis: number, words: string): void => {
    breaches.push({ invariant: 'I10', atMillis, words });
  };
  for (const { atMillis, entry } of rowsOf(record, 'order')) {
    if (entry.who === THE_BOARD) continue;
    const isIt = ({ order, who }: OrderGiven): boolean => order === entry.order && who === entry.who;
    if (!asked(record, atMillis, isIt))
      say(atMillis, `"${entry.order}" of ${entry.who}, which nobody had asked for`);
    else if (
      !asked(record, atMillis, (given) => isIt(given) && means(record, given)) &&
      !entry.says.startsWith('refused')
    )
      say(atMillis, `"${entry.order}" of ${entry.who} means nothing and was taken: "${entry.says}"`);
  }
  for (const { atMillis, entry } of rowsOf(record, 'alarm-acknowledged')) {
    if (!asked(record, atMillis, ({ alarm, who }) => alarm === entry.alarm && who === entry.who))
      say(atMillis, `alarm "${entry.alarm}" was acknowledged and nobody had asked for it`);
  }
  const nobodies = powerless(record);
  for (const { atMillis, entry } of record.rows) {
    const reason = reasonOf(entry);
    const nobody = nobodies.find((who) => reason.includes(who));
    if (nobody !== undefined)
      say(atMillis, `${entry.kind} for the sake of ${nobody}, who asked for nothing: "${reason}"`);
  }
  return breaches;
};

/** I10: what means nothing changes nothing, and no number that is none comes out at the other end. */
export const badInput: Check = (record) => {
  const { rows, farm } = record;
  const breaches: Breach[] = [];
  const floodMost = Math.max(farm.bounds.floodMinutes.longest, farm.pump.longestOnMinutes);
  /** Alarms that stand, and those that have returned and nobody has acknowledged yet. */
  const open = new Map<string, { readonly stands: boolean; readonly acknowledged: boolean }>();
  for (const { entry, atMillis } of rows) {
    const say = (words: string): void => {
      breaches.push({ invariant: 'I10', atMillis, words });
    };
    if (entry.kind === 'alarm-raised') {
      open.set(entry.alarm, { stands: true, acknowledged: false });
      if (/NaN|Infinity|undefined|null/.test(entry.text)) say(`an alarm says "${entry.text}"`);
    }
    if (entry.kind === 'alarm-returned') {
      if (open.get(entry.alarm)?.acknowledged === false)
        open.set(entry.alarm, { stands: false, acknowledged: false });
      else open.delete(entry.alarm);
    }
    if (entry.kind === 'alarm-acknowledged') {
      const alarm = open.get(entry.alarm);
      if (alarm === undefined) say(`alarm "${entry.alarm}" was acknowledged, and there was nothing to`);
      else if (alarm.stands) open.set(entry.alarm, { stands: true, acknowledged: true });
      else open.delete(entry.alarm);
    }
    if (entry.kind === 'flood-started' && outside(entry.minutes, 0.1, floodMost)) {
      say(`a flood of ${entry.minutes} min was begun`);
    }
    if (entry.kind === 'pump-asked' && entry.pump === 'on') {
      const most = farm.pump.longestOnMinutes * 60;
      if (outside(entry.longestSeconds, 1, most))
        say(`the pump was asked on for ${entry.longestSeconds ?? 'no'} s`);
    }
    if (outside(entry.at, 0, Number.MAX_SAFE_INTEGER)) say(`${entry.kind} has no moment`);
  }
  return [...breaches, ...orders(record)];
};
