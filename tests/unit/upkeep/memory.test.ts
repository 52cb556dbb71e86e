import { describe, expect, it } from 'vitest';
import {
  memoryAfter,
  memoryWatch,
  residentMegabytes,
  type LargeMemory,
} from '../../../firmware-host/upkeep/memory.ts';
import { second } from '../../support/moments.ts';

describe('the memory of a host', () => {
  /** One look every 20 s. */
  const after = (...megabytes: readonly number[]): LargeMemory | null =>
    megabytes.reduce<LargeMemory | null>(
      (before, shown, place) => memoryAfter(before, shown, second(20 * place)),
      null,
    );

  it('is too large from 200 MB on, once it has been so for 60 s, since the first look that showed it', () => {
    expect(after(199.9)).toBeNull();
    expect(after(110, 200, 210, 220)).toEqual({ megabytes: 220, since: second(20), kind: 'for-a-moment' });
    expect(after(110, 200, 210, 220, 230)).toEqual({ megabytes: 230, since: second(20), kind: 'lasting' });
  });

  it('that was large for 40 s and is 199 MB then begins anew', () => {
    expect(after(200, 200, 200, 199)).toBeNull();
    expect(after(200, 200, 200, 199, 200, 200, 200)?.kind).toBe('for-a-moment');
  });

  it('that has been told is too large until it is below 180 MB', () => {
    expect(after(200, 200, 200, 200, 180)).toMatchObject({ megabytes: 180, kind: 'lasting' });
    expect(after(200, 200, 200, 200, 179.9)).toBeNull();
  });

  it('that reads as no number is as none', () => {
    expect(after(NaN)).toBeNull();
  });

  it('is looked at three times a minute, and not told before it has lasted', () => {
    let looks = 0;
    const memory = memoryWatch(() => {
      looks += 1;
      return 250;
    });
    for (let now = 0; now < 60; now += 1) expect(memory(second(now))).toBeNull();
    expect(looks).toBe(3);
    expect(memory(second(60))).toEqual({ megabytes: 250, since: second(0), kind: 'lasting' });
  });

  it('of this very process is between 20 and 2,000 MB', () => {
    expect(residentMegabytes()).toBeGreaterThan(20);
    expect(residentMegabytes()).toBeLessThan(2000);
  });
});
