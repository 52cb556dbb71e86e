import { describe, expect, it } from 'vitest';
import { entryJson, entryLine } from '../../../firmware-host/cli/entry-words.ts';
import type { Entry, Happening } from '../../../src/journal/entry.ts';
import { monotonicMillis, wallMillis } from '../../../src/time/instant.ts';

const AT = monotonicMillis(5000);
const WALL = wallMillis(Date.parse('2026-07-14T12:42:30Z'));
const entry = (happening: Happening): Entry => ({ ...happening, at: AT, wall: WALL });
const clue = {
  contact: 'seen',
  current: 'seen',
  tankFell: 'unknown',
  trickleLitresPerMinute: null,
  startedAt: AT,
  deadline: AT,
  retries: 2,
} as const;

const told: readonly (readonly [words: string, happening: Happening])[] = [
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
  ['sip: the tank is low', { kind: 'sip', reason: 'the tank is low' }],
  ['Ana: hold for 20 min', { kind: 'order', order: 'hold', who: 'Ana', says: 'hold for 20 min' }],
  [
    'ALARM (high) No water.',
    { kind: 'alarm-raised', alarm: 'missed-flood', priority: 'high', text: 'No water.' },
  ],
  ['alarm over: missed-flood', { kind: 'alarm-returned', alarm: 'missed-flood' }],
  ['alarm seen by Ana: missed-flood', { kind: 'alarm-acknowledged', alarm: 'missed-flood', who: 'Ana' }],
];

describe('entryLine', () => {
  it.each(told)('says "%s" behind the local time', (words, happening) => {
    expect(entryLine(entry(happening), 'Europe/Lisbon')).toBe(`2026-07-14 13:42  ${words}`);
  });

  it('says nothing of what the pump was asked: that is for the journal', () => {
    expect(entryLine(entry({ kind: 'pump-asked', pump: 'off', longestSeconds: null }), 'UTC')).toBeNull();
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
