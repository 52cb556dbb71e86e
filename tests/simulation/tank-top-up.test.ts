import { describe, expect, it } from 'vitest';
import type { Plant } from '../../sim/plant/plant.ts';
import type { Farm } from '../../src/farm/farm.ts';
import { HOUR, runShed, timesRaised, told, type RunAsked, type ShedRun } from './shed-run.ts';
import { broken, clock, DAY, shedWith } from './sheds.ts';

const MINUTE = 60_000;

/** Four benches on a tank of 600 L with a level sensor; 160 L stand in the channels, and the pump reaches none of 60 L. */
const tankOf = (size: object, tankFloat: boolean): Farm =>
  shedWith(
    [
      ['evidence'],
      { returnFlow: 'meter', pumpCurrent: true, relayReadBack: true, tankFloat, tankLevel: true },
    ],
    [
      ['tank'],
      {
        litres: 600,
        usualLitres: 520,
        dryLitres: 60,
        topUp: { floatValveAtLitres: 300, litresPerMinute: 8 },
        ...size,
      },
    ],
  );

const run = (asked: Pick<RunAsked, 'farm'> & Partial<RunAsked>): ShedRun =>
  runShed({ fromMillis: DAY.start, untilMillis: DAY.end, ...asked });
const falls = ({ alarms }: ShedRun): ShedRun['alarms'] =>
  alarms.filter(({ entry }) => entry.alarm === 'tank-falls');

/** From 9:00 of the hot day on, with a valve that filled well until then. */
const stopped = (tankFloat: boolean, restartsAt: readonly number[] = []): ShedRun =>
  run({
    farm: tankOf({}, tankFloat),
    faults: broken('top-up-stopped', 9),
    untilMillis: clock(29),
    ...(restartsAt.length === 0 ? {} : { restartsAt, resumes: { awayMinutes: 2 } }),
  });

describe('a top-up that stops, which a sensor of the level tells', () => {
  it.each([
    ['with a float beside, an hour before that hangs low', true],
    ['without a float, before anybody is sent to the filter', false],
  ])('is the first alarm, high, in the hours while whole floods still come, %s', (_, tankFloat) => {
    const { alarms } = stopped(tankFloat);
    const [first, second] = alarms.map(({ entry }) => entry);
    expect(first).toMatchObject({ alarm: 'tank-falls', priority: 'high' });
    expect(first!.text).toMatch(
      /not topped up, or too slowly.*too low for a whole flood in about.*valve and its supply/,
    );
    expect(first!.at).toBeLessThan(clock(15));
    expect(second!.at - first!.at).toBeGreaterThan(HOUR);
  });

  it('stays told through the night, in which the plants drink next to nothing, and over a restart', () => {
    const shed = stopped(false, [clock(20)]);
    expect(falls(shed)).toHaveLength(1);
    expect(told(shed, 'alarm-returned').map(({ alarm }) => alarm)).not.toContain('tank-falls');
  });

  it('is over within 2 h of its mending', () => {
    const shed = run({
      farm: tankOf({}, true),
      faults: broken('top-up-stopped', 9, 15.5),
      untilMillis: clock(17.5),
    });
    expect(falls(shed)).toHaveLength(1);
    expect(told(shed, 'alarm-returned').map(({ alarm }) => alarm)).toEqual(['tank-falls']);
  });
});

describe('a top-up that stops in a smaller tank, whose valve is open in floods alone', () => {
  const small = (litres: number, usualLitres: number, floatValveAtLitres: number): Farm =>
    tankOf({ litres, usualLitres, topUp: { floatValveAtLitres, litresPerMinute: 8 } }, false);

  it.each([
    [350, 345, 180],
    [350, 340, 100],
    [300, 290, 120],
  ])('of %d L, usually %d, its valve at %d, is told before a flood is weak', (...size) => {
    const farm = small(...size);
    const shed = run({ farm, faults: broken('top-up-stopped', 9), untilMillis: clock(15) });
    const [first] = shed.alarms.map(({ entry }) => entry);
    expect(first).toMatchObject({ alarm: 'tank-falls', priority: 'high' });
    const weak = told(shed, 'verdict').find(({ verdict }) => verdict.kind !== 'confirmed');
    expect(weak!.at - first!.at).toBeGreaterThan(HOUR);
  });

  it.each([
    [350, 345, 180],
    [350, 340, 100],
    [350, 340, 90],
    [350, 340, 80],
    [300, 290, 120],
    [300, 245, 80],
    [600, 300, 90],
    [600, 560, 90],
  ])('of %d L, usually %d, its valve at %d, is not told while it fills', (...size) => {
    expect(timesRaised(run({ farm: small(...size), untilMillis: clock(34) }))).toEqual({});
  });

  it.each([
    [350, 345, 180],
    [350, 340, 100],
    [350, 340, 90],
    [300, 290, 120],
  ])('of %d L, usually %d, its valve at %d, is over within 3 h of its mending', (...size) => {
    const shed = run({
      farm: small(...size),
      faults: broken('top-up-stopped', 9, 12.5),
      untilMillis: clock(15.5),
    });
    expect(falls(shed)).toHaveLength(1);
    expect(told(shed, 'alarm-returned').map(({ alarm }) => alarm)).toContain('tank-falls');
  });
});

describe('a tank that is filled by hand to where it usually is, once it is told to be too low', () => {
  /** Fills it in the first rest after a moment. */
  const filling =
    (usualLitres: number, fromMillis: number) =>
    ({ state }: Plant): number => {
      if (state.atMillis >= fromMillis && !state.pumpOn && state.minutesSinceEvent >= 15) {
        const inChannels = state.benches.reduce((sum, { drainableLitres }) => sum + drainableLitres, 0);
        state.tank.litres = Math.max(state.tank.litres, usualLitres - inChannels);
        return Infinity;
      }
      return state.atMillis + MINUTE;
    };

  it.each([345, 360])('%d of 370 L: is well within the hour', (usualLitres) => {
    const shed = run({
      farm: tankOf({ litres: 370, usualLitres, topUp: 'by-hand' }, false),
      works: filling(usualLitres, clock(13)),
      fromMillis: clock(7),
      untilMillis: clock(14.5),
    });
    expect(falls(shed)).toHaveLength(1);
    const over = told(shed, 'alarm-returned').find(({ alarm }) => alarm === 'tank-falls');
    expect(over!.at).toBeGreaterThan(clock(13));
    expect(over!.at).toBeLessThan(clock(14.25));
  });
});
