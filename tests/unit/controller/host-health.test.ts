import { describe, expect, it } from 'vitest';
import { hostHealth } from '../../../src/controller/host-health.ts';
import { afterSeconds, monotonicMillis, type MonotonicMillis } from '../../../src/time/instant.ts';

const NOW = monotonicMillis(10_000_000);

const journalAfter = (seconds: number, lookedAt: MonotonicMillis | null) =>
  hostHealth(
    {
      lookedAt,
      journal: { kind: 'behind', waiting: 1, seconds },
      channels: [],
      starts: { starts: 1, safeMode: null },
      boardClock: null,
      line: null,
      chip: null,
      readings: [],
    },
    NOW,
  ).journal.kind;

describe('a write that has been in hand', () => {
  it.each([
    ['for 59 s is no word for a person', 59, -1, 'well'],
    ['for 60 s, looked at once a second, is a disk that records nothing', 60, -1, 'not-recording'],
    ['for an hour in which the host stood still is none yet', 3600, -3600, 'well'],
    ['for an hour is one a second later, when it still has not come back', 3601, -1, 'not-recording'],
    ['for 60 s is told by a host that is 5 s late, which is no standstill', 60, -5, 'not-recording'],
  ])('%s', (_, seconds, looked, kind) => {
    expect(journalAfter(seconds, afterSeconds(NOW, looked))).toBe(kind);
  });

  it('for 60 s at the first look of all is told', () => {
    expect(journalAfter(60, null)).toBe('not-recording');
  });
});
