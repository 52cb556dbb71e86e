import { describe, expect, it } from 'vitest';
import { hostHealth, lastStandstill, type Standstill } from '../../../src/controller/host-health.ts';
import { afterSeconds, monotonicMillis, type MonotonicMillis } from '../../../src/time/instant.ts';

const NOW = monotonicMillis(10_000_000);
const ago = (seconds: number): MonotonicMillis => afterSeconds(NOW, -seconds);
const stood = (fromAgo: number, untilAgo: number): Standstill => ({
  from: ago(fromAgo),
  until: ago(untilAgo),
});

const journalAfter = (seconds: number, standstill: Standstill | null) =>
  hostHealth(
    {
      stood: standstill,
      journal: { kind: 'behind', waiting: 1, seconds },
      channels: [],
      starts: { starts: 1, safeMode: null },
      pastUnread: null,
      boardClock: null,
      line: null,
      chip: null,
      memory: null,
      battery: null,
      readings: [],
    },
    NOW,
  ).journal.kind;

describe('a write that has been in hand', () => {
  it.each([
    ['for 59 s is no word for a person', 59, null, 'well'],
    ['for 60 s is a disk that records nothing', 60, null, 'not-recording'],
    ['for an hour in which the host stood still is none yet', 3600, stood(3600, 0), 'well'],
    ['for that hour and 59 s before and after it is none', 3659, stood(3630, 30), 'well'],
    ['for that hour and 60 s before and after it is one', 3660, stood(3630, 30), 'not-recording'],
    ['for 59 s of which the host stood still for none is none', 59, stood(7200, 3600), 'well'],
    ['for 60 s since the host went on again is one', 60, stood(7200, 60), 'not-recording'],
    ['since the middle of a standstill that ended 59 s ago is none', 1859, stood(3659, 59), 'well'],
  ])('%s', (_, seconds, standstill, kind) => {
    expect(journalAfter(seconds, standstill)).toBe(kind);
  });
});

describe('the last standstill of the host', () => {
  const before = stood(7200, 3600);
  it.each([
    ['is none at its first look', null, null, null],
    ['is none after a look that comes 5 s late', null, ago(5), null],
    ['is the 6 s between two looks', null, ago(6), stood(6, 0)],
    ['stays until there is another', before, ago(1), before],
    ['gives way to the next', before, ago(60), stood(60, 0)],
  ])('%s', (_, known, looked, last) => {
    expect(lastStandstill(known, looked, NOW)).toEqual(last);
  });
});
