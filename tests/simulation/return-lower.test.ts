import { describe, expect, it } from 'vitest';
import type { Fault } from '../../sim/faults/fault.ts';
import { HOUR, runShed, timesRaised, told, trueMinutesLeft, type ShedRun } from './shed-run.ts';
import { DAY, FARM } from './sheds.ts';

const from = (kind: Fault['kind'], hours: number, until: number, bench?: number): Fault => ({
  kind,
  fromMillis: DAY.start + hours * HOUR,
  untilMillis: DAY.start + until * HOUR,
  ...(bench === undefined ? {} : { bench }),
});
const run = (days: number, faults: readonly Fault[]): ShedRun =>
  runShed({ farm: FARM, fromMillis: DAY.start, untilMillis: DAY.start + days * 24 * HOUR, faults });

describe('one of four inlets that is blocked at 11:00 of the second day', () => {
  const BLOCKED = 24 + 11;
  const shed = run(3, [from('inlet-blocked', BLOCKED, 60, 1)]);
  const since = DAY.start + BLOCKED * HOUR;
  const [alarm] = shed.alarms;

  it('is one medium alarm at the end of the second flood after it, 21 % under what used to come back', () => {
    expect(timesRaised(shed)).toEqual({ 'return-lower': 1 });
    expect(alarm?.entry).toMatchObject({
      priority: 'medium',
      text: expect.stringMatching(/^The return is 2[0-3] % lower than it used to be/) as unknown,
    });
    const floods = told(shed, 'verdict').filter(({ at }) => at > since && at <= alarm!.entry.at);
    expect(floods.map(({ verdict }) => verdict.kind)).toEqual(['confirmed', 'confirmed']);
  });

  it('is told with the list of the walk, with a quarter of an hour truly left: half the time of a bench without water on a hot noon is gone', () => {
    expect(alarm?.entry.text).toContain(
      'does water come at each inlet (Bench 1, Bench 2, Bench 3, Bench 4)?',
    );
    expect(trueMinutesLeft(alarm!.plant, FARM.floors.wilt)).toBeGreaterThan(15);
  });

  it('is over at the end of the second flood after it is free', () => {
    const over = told(shed, 'alarm-returned').find(({ alarm: kind }) => kind === 'return-lower')!;
    const free = DAY.start + 60 * HOUR;
    const floods = told(shed, 'verdict').filter(({ at }) => at > free && at <= over.at);
    expect(floods).toHaveLength(2);
  });
});
