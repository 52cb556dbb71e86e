import { describe, expect, it } from 'vitest';
import { entryJson, entryLine, isToldUnasked } from '../../../firmware-host/cli/entry-words.ts';
import { heardHappening } from '../../../src/journal/heard-happening.ts';
import type { Entry, Happening } from '../../../src/journal/entry.ts';
import type { KeptRun } from '../../../src/ports/board.ts';
import { monotonicMillis, wallMillis } from '../../../src/time/instant.ts';

const AT = monotonicMillis(5000);
const WALL = wallMillis(Date.parse('2026-07-14T12:42:30Z'));
const entry = (happening: Happening): Entry => ({ ...happening, at: AT, wall: WALL });
const clue = {
  contact: 'seen',
  current: 'seen',
  mains: 'unknown',
  tankFell: 'unknown',
  trickleLitresPerMinute: null,
  stoppedAt: null,
  startedAt: AT,
  deadline: AT,
  retries: 2,
} as const;

/** A run of 20 min that began 40.5 min before the entry. */
const kept = (told: Partial<KeptRun>): Happening => ({
  kind: 'kept-run',
  startedAt: monotonicMillis(5000 - 40.5 * 60_000),
  seconds: 1200,
  begunBy: 'board',
  endedBy: 'board',
  verdict: 'confirmed',
  ...told,
});

const told: readonly (readonly [words: string, happening: Happening])[] = [
  [
    'missed-flood: text to Ana NOT taken by modem, attempt 2: no network',
    heardHappening({
      kind: 'failed',
      call: {
        kind: 'raised',
        alarm: 'missed-flood',
        also: [],
        seenBy: null,
        priority: 'high',
        text: '',
        message: '',
        rung: 0,
        minutesLeft: 9,
      },
      channel: 'modem',
      form: 'text',
      person: 'Ana',
      why: 'no network',
      attempt: 2,
    }),
  ],
  [
    'message: text to Ana taken by modem',
    heardHappening({ kind: 'delivered', call: null, channel: 'modem', form: 'text', person: 'Ana', at: AT }),
  ],
  [
    'Ana says that it was seen, by modem',
    heardHappening({ kind: 'acknowledge', who: 'Ana', channel: 'modem', known: [] }),
  ],
  ['Ana asks for the state, by modem', heardHappening({ kind: 'asked', who: 'Ana', channel: 'modem' })],
  [
    'a text from a number that is not listed (…123): not answered',
    heardHappening({ kind: 'stranger', channel: 'modem', lastDigits: '123' }),
  ],
  ['Ribeira: running', { kind: 'started', farm: 'Ribeira' }],
  [
    'flood 3 for 20 min: 33.1 °C shortens the rest',
    {
      kind: 'flood-started',
      flood: 3,
      part: 'noon',
      minutes: 20,
      reason: 'flood now: 33.1 °C shortens the rest',
    },
  ],
  ['flood 3: no water yet, retry 1', { kind: 'flood-retried', flood: 3, retry: 1 }],
  [
    'flood 3 confirmed: water back',
    { kind: 'verdict', flood: 3, part: 'noon', verdict: { kind: 'confirmed', says: 'water back' } },
  ],
  [
    'flood 3 DEGRADED: weak',
    { kind: 'verdict', flood: 3, part: 'noon', verdict: { kind: 'degraded', says: 'weak', why: 'weak' } },
  ],
  [
    'flood 3 unproven: no sensor',
    { kind: 'verdict', flood: 3, part: 'noon', verdict: { kind: 'unproven', says: 'no sensor' } },
  ],
  [
    'flood 3 MISSED: no water',
    { kind: 'verdict', flood: 3, part: 'noon', verdict: { kind: 'missed', says: 'no water', clue } },
  ],
  [
    'flood 3 withheld: held',
    { kind: 'verdict', flood: 3, part: 'noon', verdict: { kind: 'withheld', says: 'held' } },
  ],
  [
    'the board is gone: unplugged; it should flood by its own table meanwhile',
    { kind: 'link-lost', why: 'unplugged', keeper: 'keeps' },
  ],
  ['the board is gone: unplugged', { kind: 'link-lost', why: 'unplugged' }],
  ['the board answers; its pump is told off first', { kind: 'link-found' }],
  [
    'the board answers, and tells what it did; its pump goes on as it is',
    { kind: 'link-found', keeper: 'kept' },
  ],
  ['while the host was away, from 13:02 for 20 min: confirmed', kept({})],
  [
    'while the host was away, from 13:02 for 20 min, begun by the host: MISSED',
    kept({ begunBy: 'host', verdict: 'missed' }),
  ],
  ['while the host was away, from 13:02 for 20 s: only a sip', kept({ seconds: 20, verdict: 'sip' })],
  ['while the host was away, from 13:02 for 4 min: CUT SHORT', kept({ seconds: 240, verdict: 'cut-short' })],
  [
    'while the host was away, from 13:02 for 20 min: begun and ended by another host',
    kept({ begunBy: 'host', endedBy: 'host', verdict: 'judged-by-host' }),
  ],
  [
    'the board has forgotten 1 entry of its log: nobody knows what it did then',
    { kind: 'kept-gap', forgotten: 1 },
  ],
  [
    'the board has forgotten 7 entries of its log: nobody knows what it did then',
    { kind: 'kept-gap', forgotten: 7 },
  ],
  ['the run ends; from here on the board floods by its own table', { kind: 'left-to-board' }],
  ['the pump is asked on, for 1500 s at most', { kind: 'pump-asked', pump: 'on', longestSeconds: 1500 }],
  ['the pump is asked off', { kind: 'pump-asked', pump: 'off', longestSeconds: null }],
  ['sip: the tank is low', { kind: 'sip', reason: 'the tank is low' }],
  ['Ana: hold for 20 min', { kind: 'order', order: 'hold', who: 'Ana', says: 'hold for 20 min' }],
  [
    'ALARM (high) No water.',
    { kind: 'alarm-raised', alarm: 'missed-flood', priority: 'high', text: 'No water.' },
  ],
  ['alarm over: missed-flood', { kind: 'alarm-returned', alarm: 'missed-flood' }],
  ['alarm seen by Ana: missed-flood', { kind: 'alarm-acknowledged', alarm: 'missed-flood', who: 'Ana' }],
  [
    'alarm put off by Ana for 2 h: channel-dead',
    { kind: 'alarm-shelved', alarm: 'channel-dead', who: 'Ana', minutes: 120 },
  ],
  [
    'Ana may not put off tank-low: it is about water',
    { kind: 'shelve-refused', alarm: 'tank-low', who: 'Ana', why: 'it is about water' },
  ],
  ['alarm no longer put off: channel-dead', { kind: 'alarm-unshelved', alarm: 'channel-dead' }],
  [
    'call to the first of the rota: mains lost, with missed flood',
    { kind: 'alarm-called', call: 'raised', alarm: 'mains-lost', also: ['missed-flood'], rung: 0 },
  ],
  [
    'call, nobody having answered, to the next of the rota, step 31: tank low',
    { kind: 'alarm-called', call: 'escalated', alarm: 'tank-low', also: [], rung: 30 },
  ],
  [
    'call that it is over to everybody called before: tank low',
    { kind: 'alarm-called', call: 'returned', alarm: 'tank-low', also: [], rung: 1 },
  ],
  [
    'call that all is well to the first of the rota',
    { kind: 'alarm-called', call: 'all-well', alarm: null, also: [], rung: 0 },
  ],
];

describe('entryLine', () => {
  it.each(told)('says "%s" behind the local time', (words, happening) => {
    expect(entryLine(entry(happening), 'Europe/Lisbon')).toBe(`2026-07-14 13:42  ${words}`);
  });

  it('leaves what the pump was asked, and nothing else, to whoever asks for that kind', () => {
    const left = told.map(([, happening]) => entry(happening)).filter((each) => !isToldUnasked(each));
    expect(left.map(({ kind }) => kind)).toEqual(['pump-asked', 'pump-asked']);
  });

  it('says "time unknown" rather than a wrong time', () => {
    const line = entryLine({ kind: 'sip', reason: 'dry', at: AT, wall: 'unknown' }, 'UTC');
    expect(line).toBe('time unknown  sip: dry');
  });
});

describe('entryJson', () => {
  it.each(told)('gives "%s" as one line that holds all of it, the time as UTC', (_, happening) => {
    const json = entryJson(entry(happening));
    expect(json).not.toContain('\n');
    expect(JSON.parse(json)).toEqual({ ...happening, at: 5000, wall: '2026-07-14T12:42:30.000Z' });
  });

  it('keeps an unknown time unknown, and a line break in a name within its line', () => {
    const json = entryJson({ kind: 'order', order: 'hold', who: 'A\nB', says: 'x', at: AT, wall: 'unknown' });
    expect(json).not.toContain('\n');
    expect(JSON.parse(json)).toMatchObject({ who: 'A\nB', wall: 'unknown' });
  });
});
