import { describe, expect, it } from 'vitest';
import { clockChanges } from '../../support/clock-changes.ts';
import { exampleFarm, movedTo } from '../../support/farm.ts';
import { absent, good } from '../../support/moments.ts';
import { floodsBetween } from '../../support/simple-shed.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;

describe('the rests of a day on which the clocks change, in every zone of 2026', () => {
  it.each([
    ['44 °C', good(44)],
    ['5 °C', good(5)],
    ['no good temperature', absent],
  ])('at %s none is shorter than the shortest nor longer than the longest that stood over it', (_, air) => {
    for (const change of clockChanges(2026)) {
      const farm = movedTo(exampleFarm, change);
      const floods = floodsBetween(farm, change.at - 20 * HOUR, change.at + 20 * HOUR, air);
      floods.slice(1).forEach(({ start, shortestRestMinutes, longestRestMinutes }, place) => {
        const before = floods[place]!;
        const rested = (start - before.end) / MINUTE;
        expect(rested, change.timeZone).toBeGreaterThanOrEqual(shortestRestMinutes - 1e-9);
        // At sunrise the longest falls from 210 to 75 min: a rest that began by night may have been longer by then.
        const longest = Math.max(longestRestMinutes, before.longestRestMinutes);
        expect(rested, change.timeZone).toBeLessThanOrEqual(longest + 1e-3);
      });
      expect(floods.length, change.timeZone).toBeGreaterThan(10);
    }
  });
});
