import { ALARM_NAMES } from '../../src/alarm/call-words.ts';
import { momentText, spanText } from '../../src/alarm/words.ts';
import type { Entry } from '../../src/journal/entry.ts';
import type { KeptRun } from '../../src/ports/board.ts';
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

const keptVerdictWord: Readonly<Record<KeptRun['verdict'], string>> = {
  confirmed: 'confirmed',
  unproven: 'unproven',
  missed: 'MISSED',
  sip: 'only a sip',
  'cut-short': 'CUT SHORT',
  'judged-by-host': 'begun and ended by another host',
};

/** `13:42`, or how long ago where no clock is believed. */
const startText = (entry: Extract<Entry, { kind: 'kept-run' }>, timeZone: string): string =>
  momentText(entry.startedAt, { monotonic: entry.at, wall: entry.wall }, timeZone);

const keptRunWords = (entry: Extract<Entry, { kind: 'kept-run' }>, timeZone: string): string => {
  const span = entry.seconds < 90 ? `${Math.round(entry.seconds)} s` : spanText(entry.seconds / 60);
  const begun = entry.begunBy === 'host' && entry.endedBy === 'board' ? ', begun by the host' : '';
  const verdict = keptVerdictWord[entry.verdict];
  return `while the host was away, from ${startText(entry, timeZone)} for ${span}${begun}: ${verdict}`;
};

const readingWords = ({ channel, quality, value, unit }: Extract<Entry, { kind: 'reading' }>): string => {
  const shown = typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value);
  const said = value === null ? 'nothing' : `${shown}${unit === '' ? '' : ` ${unit}`}`;
  return `${channel}: ${said}${quality === 'good' ? '' : `, ${quality}`}`;
};

const settingsWords = ({ file, sha256 }: Extract<Entry, { kind: 'settings' }>): string =>
  `settings in force: ${file} (SHA-256 ${sha256.slice(0, 12)}…)`;

const gapWords = ({ lastWall, why }: Extract<Entry, { kind: 'gap-recorded' }>, timeZone: string): string =>
  `GAP in the book since ${lastWall === 'unknown' ? 'an unknown time' : localDateTimeText(lastWall, timeZone)}: ${why}`;

const counted = (count: number, one: string, more: string): string => `${count} ${count === 1 ? one : more}`;
const CALL_WORDS: Readonly<Record<Called['call'], string>> = {
  raised: 'call',
  again: 'call again',
  escalated: 'call, nobody having answered,',
  returned: 'call that it is over',
  'all-well': 'call that all is well',
};

type Called = Extract<Entry, { kind: 'alarm-called' }>;

/** After the last of the rota comes the first again, so a step is no person; who it was, the delivery after it tells. */
const toWhom = ({ call, rung }: Called): string => {
  if (call === 'returned') return 'everybody called before';
  return rung === 0 ? 'the first of the rota' : `the next of the rota, step ${rung + 1}`;
};

/** `call to the first of the rota: missed flood, with weak flood` */
const callWords = (called: Called): string => {
  const { alarm, also, call } = called;
  const to = `${CALL_WORDS[call]} to ${toWhom(called)}`;
  if (alarm === null) return to;
  const others = also.map((kind) => ALARM_NAMES[kind]).join(', ');
  return `${to}: ${ALARM_NAMES[alarm]}${others === '' ? '' : `, with ${others}`}`;
};

const deliveryWords = (entry: Extract<Entry, { kind: 'delivery' }>): string => {
  const what = entry.alarm ?? 'message';
  const to = entry.person === null ? '' : ` to ${entry.person}`;
  if (entry.outcome === 'delivered') return `${what}: ${entry.form}${to} taken by ${entry.channel}`;
  const attempt = entry.attempt === null ? '' : `, attempt ${entry.attempt}`;
  return `${what}: ${entry.form}${to} NOT taken by ${entry.channel}${attempt}: ${entry.why ?? 'nobody knows why'}`;
};

const MEANT = {
  acknowledge: 'says that it was seen',
  state: 'asks for the state',
  'something-else': 'sends a text that is neither "?" nor "ok"',
} as const;

const textCameWords = (entry: Extract<Entry, { kind: 'text-came' }>): string =>
  entry.who === null
    ? `a text from a number that is not listed (…${entry.lastDigits ?? ''}): not answered`
    : `${entry.who} ${MEANT[entry.meant]}, by ${entry.channel}`;

/** What was asked, not what the pump did. */
const pumpWords = ({ pump, longestSeconds }: Extract<Entry, { kind: 'pump-asked' }>): string =>
  longestSeconds === null
    ? `the pump is asked ${pump}`
    : `the pump is asked ${pump}, for ${Math.round(longestSeconds)} s at most`;

const words = (entry: Entry, timeZone: string): string => {
  switch (entry.kind) {
    case 'started':
      return `${entry.farm}: running`;
    case 'link-lost':
      return entry.keeper === undefined
        ? `the board is gone: ${entry.why}`
        : `the board is gone: ${entry.why}; it should flood by its own table meanwhile`;
    case 'link-found':
      return entry.keeper === undefined
        ? 'the board answers; its pump is told off first'
        : 'the board answers, and tells what it did; its pump goes on as it is';
    case 'kept-run':
      return keptRunWords(entry, timeZone);
    case 'kept-gap':
      return `the board has forgotten ${entry.forgotten} ${entry.forgotten === 1 ? 'entry' : 'entries'} of its log: nobody knows what it did then`;
    case 'left-to-board':
      return 'the run ends; from here on the board floods by its own table';
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
    case 'settings':
      return settingsWords(entry);
    case 'stopped':
      return 'the host ends as it should';
    case 'gap-recorded':
      return gapWords(entry, timeZone);
    case 'damaged-file-set-aside':
      return `GAP in the book: the one before is not used (${entry.why}). It lies at ${entry.path}, and a new one is begun`;
    case 'dropped':
      return `GAP in the book: ${counted(entry.entries, 'entry', 'entries')} and ${counted(entry.readings, 'reading', 'readings')} are lost, since the disk took nothing for too long`;
    case 'reading':
      return readingWords(entry);
    case 'alarm-shelved':
      return `alarm put off by ${entry.who} for ${spanText(entry.minutes)}: ${entry.alarm}`;
    case 'shelve-refused':
      return `${entry.who} may not put off ${entry.alarm}: ${entry.why}`;
    case 'alarm-unshelved':
      return `alarm no longer put off: ${entry.alarm}`;
    case 'alarm-called':
      return callWords(entry);
    case 'delivery':
      return deliveryWords(entry);
    case 'text-came':
      return textCameWords(entry);
    case 'pump-asked':
      return pumpWords(entry);
  }
};

/** What a person is told without asking for its kind: what the pump was asked says little beside floods and sips. */
export const isToldUnasked = ({ kind }: Entry): boolean => kind !== 'pump-asked';

/** One line for a person. */
export const entryLine = (entry: Entry, timeZone: string): string => {
  const when = entry.wall === 'unknown' ? 'time unknown' : localDateTimeText(entry.wall, timeZone);
  return `${when}  ${words(entry, timeZone)}`;
};

/** The entry as one line of JSON; `at` is monotonic milliseconds, `wall` is UTC or "unknown". */
export const entryJson = (entry: Entry): string =>
  JSON.stringify({
    ...entry,
    wall: entry.wall === 'unknown' ? 'unknown' : new Date(entry.wall).toISOString(),
  });
