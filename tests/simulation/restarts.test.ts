import { describe, expect, it } from 'vitest';
import { seededDice } from '../../sim/dice.ts';
import { lowestTheta, restsOf, runShed } from './shed-run.ts';
import { clock, DAY, FARM } from './sheds.ts';

const MINUTE = 60_000;

/** Moments from 06:00 to 20:00 with gaps that fall as chance has it, so many minutes apart on average. */
const momentsApart = (minutes: number, seed: number): readonly number[] => {
  const dice = seededDice(seed);
  const moments: number[] = [];
  for (let at = clock(6); at < clock(20); at += Math.ceil(-Math.log(1 - dice()) * minutes * MINUTE)) {
    moments.push(at);
  }
  return moments.slice(1);
};

/** A host that forgets everything and begins anew, while the board and the water go on. */
describe('a host restarted at moments of chance', () => {
  it.each([
    [180, 1],
    [30, 2],
    [30, 3],
    [5, 4],
  ])(
    'about every %d min on a hot day: benches stay wet, and the pump in its limits (seed %d)',
    (apart, seed) => {
      const restartsAt = momentsApart(apart, seed);
      const run = runShed({ farm: FARM, fromMillis: DAY.start, untilMillis: DAY.end, restartsAt, seed });
      expect(restartsAt.length).toBeGreaterThanOrEqual(2);
      expect(lowestTheta(run)).toBeGreaterThan(FARM.floors.stress);
      const on = run.tally.pumpRuns.map(({ fromMillis, untilMillis }) => (untilMillis - fromMillis) / MINUTE);
      expect(Math.max(...on)).toBeLessThanOrEqual(FARM.pump.longestOnMinutes);
      const off = restsOf(run).map(({ minutes }) => minutes * 60);
      expect(Math.min(...off)).toBeGreaterThanOrEqual(FARM.pump.shortestOffSeconds - 0.1);
    },
  );

  it('in the middle of a flood stops the pump at once, and floods anew within 2 min', () => {
    const plain = runShed({ farm: FARM, fromMillis: DAY.start, untilMillis: DAY.end });
    const flood = plain.tally.pumpRuns.find(({ fromMillis }) => fromMillis > clock(12))!;
    const restart = flood.fromMillis + 10 * MINUTE;
    const run = runShed({ farm: FARM, fromMillis: DAY.start, untilMillis: DAY.end, restartsAt: [restart] });
    const place = run.tally.pumpRuns.findIndex(
      ({ fromMillis }) => Math.abs(fromMillis - flood.fromMillis) < 1000,
    );
    expect(run.tally.pumpRuns[place]!.untilMillis).toBe(restart);
    const again = run.tally.pumpRuns[place + 1]!.fromMillis - restart;
    expect(again).toBeGreaterThanOrEqual(FARM.pump.shortestOffSeconds * 1000);
    expect(again).toBeLessThanOrEqual(2 * MINUTE);
  });
});
