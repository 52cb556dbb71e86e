import type { Entry } from '../../src/journal/entry.ts';
import { localDateTimeText } from '../../src/time/local-day.ts';
import type { Verdict } from '../../src/verify/verdict.ts';

const verdictWord: Readonly<Record<Verdict['kind'], string>> = {
  confirmed: 'confirmed',
  degraded: 'DEGRADED',
  unproven: 'unproven',
  missed: 'MISSED',
  withheld: 'withheld',
};

/** "flood now: " opens the reason for a start; behind "flood 3 for 20 min" it says nothing more. */
const reasonAlone = (reason: string): string => reason.replace(/^flood now: /, '');

const words = (entry: Entry): string | null => {
  switch (entry.kind) {
    case 'started':
      return `${entry.farm}: running`;
    case 'link-lost':
      return `the board is gone: ${entry.why}`;
    case 'link-found':
      return 'the board answers; its pump is told off first';
    case 'flood-started':
      return `flood ${entry.flood} for ${entry.minutes.toFixed(0)} min: ${reasonAlone(entry.reason)}`;
    case 'flood-retried':
      return `flood ${entry.flood}: no water yet, retry ${entry.retry}`;
    case 'verdict':
      return `flood ${entry.flood} ${verdictWord[entry.verdict.kind]}: ${entry.verdict.says}`;
    case 'sip':
      return `sip: ${entry.reason}`;
    case 'order':
      return `${entry.who}: ${entry.says}`;
    case 'alarm-raised':
      return `ALARM (${entry.priority}) ${entry.text}`;
    case 'alarm-returned':
      return `alarm over: ${entry.alarm}`;
    case 'alarm-acknowledged':
      return `alarm seen by ${entry.who}: ${entry.alarm}`;
    case 'pump-asked':
      return null;
  }
};

/** One line for a person, or null for what only the journal needs. */
export const entryLine = (entry: Entry, timeZone: string): string | null => {
  const said = words(entry);
  if (said === null) return null;
  const when = entry.wall === 'unknown' ? 'time unknown' : localDateTimeText(entry.wall, timeZone);
  return `${when}  ${said}`;
};

/** The entry as one line of JSON; `at` is monotonic milliseconds, `wall` is UTC or "unknown". */
export const entryJson = (entry: Entry): string =>
  JSON.stringify({
    ...entry,
    wall: entry.wall === 'unknown' ? 'unknown' : new Date(entry.wall).toISOString(),
  });
