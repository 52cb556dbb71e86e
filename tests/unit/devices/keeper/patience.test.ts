import { describe, expect, it } from 'vitest';
import {
  afterEnd,
  afterFailure,
  afterListing,
  mayOpen,
  isKnownLine,
  NO_TRIES,
  type Patience,
} from '../../../../firmware-host/devices/keeper/patience.ts';
import { monotonicMillis } from '../../../../src/time/instant.ts';

const at = (seconds: number): ReturnType<typeof monotonicMillis> => monotonicMillis(seconds * 1000);
const failed = (times: number): Patience => {
  let patience = NO_TRIES;
  for (let time = 0; time < times; time += 1) patience = afterFailure(patience, 'usb', null, at(0));
  return patience;
};

describe('the patience with a board whose keeper would be reset by opening its line', () => {
  it.each([
    [1, 0],
    [2, 10],
    [3, 60],
    [4, 300],
    [5, 1800],
    [6, 3600],
    [60, 3600],
  ])('after %d failures in a row is %d s', (times, pause) => {
    expect(failed(times).get('usb')?.notBefore).toBe(at(pause));
    expect(mayOpen(failed(times), 'usb', at(pause - 0.001))).toBe(false);
    expect(mayOpen(failed(times), 'usb', at(pause))).toBe(true);
  });

  it('begins anew after a connection that held for 300 s, and not after one of 299 s', () => {
    expect(afterFailure(failed(5), 'usb', at(1000), at(1300)).get('usb')?.failures).toBe(1);
    expect(afterFailure(failed(5), 'usb', at(1000), at(1299)).get('usb')?.failures).toBe(6);
  });

  it('is over when the line was gone: a board that is plugged in again has been reset already', () => {
    const seen = afterListing(failed(6), ['other', 'usb']);
    expect(mayOpen(seen, 'usb', at(0))).toBe(false);
    expect(mayOpen(afterListing(seen, ['other']), 'usb', at(0))).toBe(true);
  });

  it('stands for a line that the system never lists, until it ends', () => {
    const unlisted = afterListing(afterListing(failed(6), ['other']), ['other']);
    expect(mayOpen(unlisted, 'usb', at(0))).toBe(false);
    expect(mayOpen(afterEnd(unlisted, 'usb'), 'usb', at(0))).toBe(true);
  });

  it('is for one line alone', () => {
    expect(mayOpen(failed(6), 'other', at(0))).toBe(true);
    expect([isKnownLine(failed(1), 'usb'), isKnownLine(failed(1), 'other')]).toEqual([true, false]);
    expect(afterFailure(failed(6), 'other', null, at(0)).get('other')?.failures).toBe(1);
  });

  it('opens any line as long as nothing has failed', () => {
    expect(mayOpen(NO_TRIES, 'usb', at(0))).toBe(true);
  });
});
