import { describe, expect, it } from 'vitest';
import type { Kept } from '../../../src/ports/board.ts';
import { plausibleKept } from '../../../src/verify/plausible-kept.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minute } from '../../support/moments.ts';
import { keptRun, NOTHING_KEPT, running } from './kept.ts';

const NOW = 200;
const believed = (kept: Partial<Kept>): Kept =>
  plausibleKept(exampleFarm, { ...NOTHING_KEPT, ...kept }, minute(NOW));

describe('what a board tells, as far as it can be', () => {
  it('is left as it is where it can', () => {
    const kept: Kept = {
      runs: [keptRun(100)],
      forgotten: 2,
      running: running(190, 210),
      lastFlood: { startedAt: minute(100), seconds: 1200 },
      holdUntil: minute(NOW + 240),
    };
    expect(believed(kept)).toEqual(kept);
    expect(believed({})).toEqual(NOTHING_KEPT);
  });

  it('drops a run that ends 5.1 s from now, and counts it as not told; one of 5 s is the board’s rounding', () => {
    const ending = (seconds: number): Kept => believed({ runs: [keptRun(NOW - 20 + seconds / 60)] });
    expect(ending(5.1)).toMatchObject({ runs: [], forgotten: 1 });
    expect(ending(5)).toMatchObject({ runs: [{ seconds: 1200 }], forgotten: 0 });
  });

  it('drops runs of no length that could be, and a last flood of the future', () => {
    expect(believed({ runs: [keptRun(100, { seconds: NaN }), keptRun(100, { seconds: -1 })] }).runs).toEqual(
      [],
    );
    expect(believed({ lastFlood: { startedAt: minute(NOW), seconds: 60 } }).lastFlood).toBeNull();
  });

  it('lets no run last past the longest-on of 45 min, nor begin in the future, nor end in the past', () => {
    expect(believed({ running: running(190, 1000) }).running).toEqual(running(190, 235));
    expect(believed({ running: running(201, 210) }).running).toEqual(running(200, 210));
    expect(believed({ running: running(150, 200) }).running).toBeNull();
  });

  it('lets no hold last longer than the 4 h that anybody may ask for', () => {
    expect(believed({ holdUntil: minute(NOW + 1000) }).holdUntil).toBe(minute(NOW + 240));
  });
});
