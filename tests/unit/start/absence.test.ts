import { describe, expect, it } from 'vitest';
import { absenceOf, type Left } from '../../../firmware-host/start/absence.ts';
import { monotonicMillis, wallMillis, type Now } from '../../../src/time/instant.ts';
import { minute, utc } from '../../support/moments.ts';

const NOON = utc('2026-07-14T11:00Z');

describe('how long nobody was there', () => {
  const stored = (boot: string | null, wall: Now['wall']): Left => ({
    boot,
    at: { monotonic: minute(40), wall },
  });
  const now = (minutes: number, wall: Now['wall']): Now => ({
    monotonic: monotonicMillis(minutes * 60_000),
    wall,
  });
  const later = (hours: number): Now['wall'] => wallMillis(NOON + hours * 3_600_000);

  it.each([
    [
      'the monotonic clock within one start of the machine',
      stored('a', NOON),
      'a',
      now(55, NOON),
      'unknown',
      15,
      'same',
    ],
    [
      'the same, whatever the wall clock did',
      stored('a', NOON),
      'a',
      now(55, later(72)),
      'network',
      15,
      'same',
    ],
    [
      'nothing where that has gone back',
      stored('a', NOON),
      'a',
      now(30, later(1)),
      'network',
      'unknown',
      'same',
    ],
    [
      'the wall clock after a new start, set by the network',
      stored('a', NOON),
      'b',
      now(1, later(3)),
      'network',
      180,
      'another',
    ],
    [
      'the wall clock, set by a battery clock',
      stored('a', NOON),
      'b',
      now(1, later(3)),
      'battery-clock',
      180,
      'another',
    ],
    [
      'nothing where the clock goes on from the last time on the disk',
      stored('a', NOON),
      'b',
      now(1, later(0.01)),
      'unknown',
      'unknown',
      'another',
    ],
    [
      'nothing in 1970',
      stored('a', NOON),
      'b',
      now(1, wallMillis(60_000)),
      'battery-clock',
      'unknown',
      'another',
    ],
    [
      'nothing where the clock was unknown before',
      stored('a', 'unknown'),
      'b',
      now(1, later(3)),
      'network',
      'unknown',
      'another',
    ],
    [
      'nothing where the wall clock has gone back',
      stored('a', NOON),
      'b',
      now(1, later(-1)),
      'network',
      'unknown',
      'another',
    ],
    [
      'the wall clock where the kernel names no start',
      stored(null, NOON),
      null,
      now(1, later(1)),
      'network',
      60,
      'another',
    ],
  ] as const)('is told by %s', (_, before, boot, moment, source, away, same) => {
    expect(absenceOf(before, boot, moment, source)).toEqual({ away, boot: same });
  });
});
