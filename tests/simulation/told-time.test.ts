import { describe, expect, it } from 'vitest';
import { rehearsed } from '../../sim/run/rehearse.ts';
import { localClockInstant } from '../../src/time/local-day.ts';
import { hotSky } from './shed-run.ts';
import { broken, DAY, FARM } from './sheds.ts';

const MINUTE = 60_000;
const HOURS = [1, 8, 13, 18, 22];
const DRAWS = 9;
/** A dry edge leaves one time in twenty beyond it; such a one may not be far beyond it. */
const LATE_SHARE_MAX = 0.05;
const LATE_OF_TIME_LEFT_MAX = 0.1;

/** The moment that a text tells: the next time after `at` that the local clock shows its "from 14:40". */
const toldMillis = (text: string, at: number): number => {
  const [, hour, minute] = /may begin to wilt from (\d\d):(\d\d)/.exec(text) ?? [];
  if (hour === undefined || minute === undefined) {
    return text.includes('may be wilting already') ? at : Infinity;
  }
  const today = localClockInstant(DAY, Number(hour) * 60 + Number(minute));
  return today >= at - MINUTE ? today : today + 24 * 60 * MINUTE;
};

interface Told {
  readonly toldMinutes: number;
  readonly trueMinutes: number;
}

/** What the first high alarm of a pump that dies at an hour tells, beside what comes; one for each run. */
const toldAt = (hour: number): readonly Told[] => {
  const sky = hotSky(FARM, DAY.start - 12 * 60 * MINUTE, 4);
  const faults = broken('pump-dead', hour);
  const runs = [...rehearsed({ farm: FARM, span: DAY, sky, faults, draws: DRAWS, seed: 11 })];
  return runs.map((run): Told => {
    const alarm = run.entries.find(
      (entry) =>
        entry.kind === 'alarm-raised' && entry.priority === 'high' && entry.at >= faults[0]!.fromMillis,
    );
    if (alarm?.kind !== 'alarm-raised') throw new Error('no high alarm was raised');
    const wilts = Math.min(...run.benches.map((bench) => bench.wiltedAtMillis ?? Infinity));
    return {
      toldMinutes: (toldMillis(alarm.text, alarm.at) - alarm.at) / MINUTE,
      trueMinutes: (wilts - alarm.at) / MINUTE,
    };
  });
};

describe('the time left told in the first high alarm of a dead pump', () => {
  const told = HOURS.flatMap(toldAt);
  const late = told.filter(({ toldMinutes, trueMinutes }) => toldMinutes > trueMinutes);

  it(`is held against ${HOURS.length * (DRAWS + 1)} runs in which a bench truly wilts`, () => {
    expect(told).toHaveLength(HOURS.length * (DRAWS + 1));
    expect(told.every(({ trueMinutes }) => Number.isFinite(trueMinutes))).toBe(true);
  });

  it('is the dry edge: longer than the true time in at most one run of twenty', () => {
    expect(late.length / told.length).toBeLessThanOrEqual(LATE_SHARE_MAX);
  });

  it('is nowhere longer than the true time by more than a tenth of it', () => {
    for (const { toldMinutes, trueMinutes } of late) {
      expect(toldMinutes - trueMinutes).toBeLessThanOrEqual(LATE_OF_TIME_LEFT_MAX * trueMinutes);
    }
  });
});
