import { describe, expect, it } from 'vitest';
import type { Farm } from '../../../src/farm/farm.ts';
import { farmWith, type Change } from '../../support/farm.ts';
import { toldFrom, type Told } from './noon.ts';

const SHORTEST = 10;

const fitted = (evidence: object = {}, ...more: readonly Change[]): Farm =>
  farmWith(
    [['evidence'], { returnFlow: 'meter', leakSensor: true, overflowFloat: true, ...evidence }],
    [['dayPlan', 1, 'floodMinutes'], 30],
    [['bounds', 'floodMinutes', 'longest'], 40],
    [['pump', 'longestOnMinutes'], 40],
    [['bounds', 'floodMinutes', 'shortest'], SHORTEST],
    ...more,
  );

interface Shed {
  readonly leak: (minutes: number) => boolean;
  readonly overflow?: (minutes: number) => boolean;
  /** What comes back, of a pump that is asked on or off. */
  readonly flow: (pump: 'on' | 'off', minutes: number) => number;
}

const shed = (farm: Farm, until: number, { leak, overflow = () => false, flow }: Shed): Told => {
  const told = toldFrom(farm);
  told.lookOn(until, (minutes) => [
    { channel: 'air-temperature', celsius: 30 },
    { channel: 'leak', wet: leak(minutes) },
    { channel: 'overflow', wet: overflow(minutes) },
    { channel: 'return-flow', litresPerMinute: flow(told.state().guard.asked.kind, minutes) },
  ]);
  return told;
};

/** When the pump was told off, but for the first word to the board. */
const stops = (told: Told): readonly number[] =>
  told
    .commands()
    .slice(1)
    .filter((command) => command.startsWith('pump-off'))
    .map((command) => Number(command.split(' ').at(-1)));

const verdicts = (told: Told): readonly string[] =>
  told
    .entries()
    .flatMap((entry) => (entry.kind === 'verdict' ? [`${entry.verdict.kind}: ${entry.verdict.says}`] : []));

const starts = (told: Told): readonly number[] =>
  told.entries().flatMap(({ kind, at }) => (kind === 'flood-started' ? [at / 60_000] : []));

const FARM = fitted();
/** The first flood begins when the pump has been off for its shortest time. */
const BEGINS = 0.75;
const NOTHING = (): number => 0;
const FULL = (pump: 'on' | 'off'): number => (pump === 'on' ? 40 : 0);

describe('one wet sign in a flood of 30 min, shortest 10', () => {
  it.each([
    ['leak', { leak: (minutes: number) => minutes > 3 }],
    ['overflow', { leak: () => false, overflow: (minutes: number) => minutes > 3 }],
  ])('%s at 3 min: a missed flood pours on to 10 min and no longer', (_, signs) => {
    const told = shed(FARM, 20, { ...signs, flow: NOTHING });
    expect(verdicts(told)).toEqual(['missed: no water came back in 8 min and 0 retries']);
    expect(stops(told)).toEqual([BEGINS + SHORTEST]);
  });

  it('a sign that gets wet after the flood was missed stops its last try 10 min after its start', () => {
    const told = shed(FARM, 25, {
      leak: (minutes) => minutes > 18,
      flow: (pump, minutes) => (pump === 'on' && minutes < 4 ? 40 : 0),
    });
    const lastTry = Number(
      told
        .commands()
        .findLast((one) => one.startsWith('pump-on'))
        ?.split(' ')
        .at(-1),
    );
    expect(verdicts(told)[0]).toMatch(/^missed: .* and 2 retries$/);
    expect(stops(told).at(-1)).toBe(lastTry + SHORTEST);
  });

  it('a flood that gives water is stopped at 10 min, and is said to have been', () => {
    const told = shed(FARM, 20, { leak: (minutes) => minutes > 3, flow: FULL });
    expect(stops(told)).toEqual([BEGINS + SHORTEST]);
    expect(verdicts(told)).toEqual([
      'degraded: stopped after 10 of 30 min: the leak sensor is wet; water back after 0.3 min',
    ]);
  });

  it('one that is past 10 min already is stopped at once', () => {
    const told = shed(FARM, 20, { leak: (minutes) => minutes > 16, flow: FULL });
    expect(stops(told)).toEqual([16.25]);
  });

  it('one that nothing can see is unproven, and stopped at 10 min', () => {
    const told = shed(fitted({ returnFlow: 'none' }), 20, { leak: (minutes) => minutes > 3, flow: NOTHING });
    expect(stops(told)).toEqual([BEGINS + SHORTEST]);
    expect(verdicts(told)[0]).toMatch(/^unproven: stopped after 10 of 30 min: the leak sensor is wet/);
  });

  it('where 2 min are the shortest its water is waited for with the pump off', () => {
    const farm = fitted({}, [['bounds', 'floodMinutes', 'shortest'], 2]);
    const late = (_: unknown, minutes: number): number => (minutes > 5 && minutes < 8 ? 30 : 0);
    const told = shed(farm, 12, { leak: (minutes) => minutes > 1, flow: late });
    expect(stops(told)).toEqual([BEGINS + 2]);
    expect(verdicts(told)[0]).toMatch(
      /^degraded: stopped after 2 of 30 min: the leak sensor is wet; water back/,
    );
    const none = shed(farm, 12, { leak: (minutes) => minutes > 1, flow: NOTHING });
    expect(verdicts(none)).toEqual(['missed: no water came back in 8 min and 0 retries']);
  });

  it('wakes for that end by itself', () => {
    const told = shed(FARM, 10.5, { leak: (minutes) => minutes > 3, flow: NOTHING });
    expect(told.tell(10.5, { kind: 'time' }).wake).toBe((BEGINS + SHORTEST) * 60_000);
  });

  it('dry, and wet only before, leaves the flood its 30 min', () => {
    const told = shed(FARM, 40, { leak: (minutes) => minutes > 3 && minutes < 7, flow: FULL });
    expect(stops(told)).toEqual([BEGINS + 30]);
  });

  it('both wet stop it at once, as before', () => {
    const wet = (minutes: number): boolean => minutes > 3;
    const told = shed(FARM, 12, { leak: wet, overflow: wet, flow: FULL });
    expect(stops(told)[0]).toBe(3.25);
    expect(verdicts(told)[0]).toMatch(/^withheld: .*are both wet/);
  });
});

describe('after a flood that a wet sign has ended', () => {
  it('the next comes after the same rest, as short, and nothing is owed', () => {
    const told = shed(FARM, 50, { leak: (minutes) => minutes > 3, flow: FULL });
    expect(starts(told)[1]).toBeCloseTo(BEGINS + SHORTEST + 25, 0);
    expect(stops(told)[1]).toBe(starts(told)[1]! + SHORTEST);
    expect(told.state().schedule.owed).toBeNull();
  });

  it('one that is owed after a missed one comes when the floor is dry again', () => {
    const told = shed(FARM, 22, { leak: (minutes) => minutes > 3 && minutes < 15, flow: NOTHING });
    expect(told.entries().findLast(({ kind }) => kind === 'flood-started')).toMatchObject({
      reason: expect.stringMatching(/the last one was missed, with a wet floor/) as unknown,
    });
  });

  it('a missed one brings no other at once, but a dry bench is believed dry and gets one after the shortest rest', () => {
    const told = shed(FARM, 120, { leak: (minutes) => minutes > 3, flow: NOTHING });
    const reasons = told
      .entries()
      .flatMap((entry) => (entry.kind === 'flood-started' ? [entry.reason] : []))
      .slice(1);
    expect(reasons.length).toBeGreaterThanOrEqual(5);
    for (const reason of reasons) expect(reason).toMatch(/too dry before the next planned flood; shortened/);
  });

  it('one that had no power has poured nothing, and another is owed', () => {
    const farm = fitted({ pumpCurrent: true });
    const told = toldFrom(farm);
    told.lookOn(12, (minutes) => [
      { channel: 'leak', wet: minutes > 3 },
      { channel: 'return-flow', litresPerMinute: 0 },
      { channel: 'pump-current', drawing: false },
    ]);
    expect(told.state().schedule.owed).toBe('the last one was missed');
  });
});
