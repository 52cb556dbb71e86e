import { describe, expect, it } from 'vitest';
import { begin } from '../../../src/controller.ts';
import type { Link } from '../../../src/ports/board.ts';
import { farmWith } from '../../support/farm.ts';
import { NOTHING_KEPT } from '../verify/kept.ts';
import { at, seen, toldFrom, type Said, type Told } from './noon.ts';

const isOn = (told: Told): boolean => told.state().guard.asked.kind === 'on';
/** Water comes back while the pump is asked on. */
const watered =
  (told: Told, ...more: readonly Said[]) =>
  (): readonly Said[] => [
    { channel: 'return-flow', litresPerMinute: isOn(told) ? 40 : 0 },
    { channel: 'tank-float', low: false },
    ...more,
  ];
const startsOf = (told: Told): readonly number[] =>
  told
    .commands()
    .flatMap((command) => (command.startsWith('pump-on at ') ? [Number(command.slice(11))] : []));

describe('a farm whose rests do not follow the air, without a thermometer', () => {
  const FIXED = farmWith(
    [['temperatureRule'], { referenceCelsius: 25, restPercentPerDegree: 0, floodPercentPerDegree: 0 }],
    [['sensors'], { airTemperature: false, humidity: false }],
  );

  it.each<Link>([{ kind: 'up' }, { kind: 'up', kept: NOTHING_KEPT }])(
    'is flooded on and on from its first start, on a board that is %j',
    (link) => {
      const told = toldFrom(FIXED, 0, link);
      told.lookOn(400, watered(told));
      const starts = startsOf(told);
      expect(starts.length).toBeGreaterThan(8);
      const rests = starts.slice(1).map((start, place) => start - (starts[place] ?? 0) - 20);
      expect(Math.max(...rests)).toBeLessThan(40);
    },
  );
});

describe('a limit of starts an hour that is used up', () => {
  const TWO = farmWith([['bounds', 'startsPerHour'], 2]);
  /** Two floods within the last twenty minutes were cut; the benches hold so much. */
  const usedUp = (theta: number): Told => {
    const started = begin(TWO, at(0), { kind: 'up' });
    return toldFrom(
      TWO,
      0,
      { kind: 'up' },
      {
        ...started,
        belief: {
          ...started.belief,
          benches: started.belief.benches.map(() => ({ theta, thetaLow: theta })),
        },
        guard: {
          asked: { kind: 'off', since: at(-2).monotonic },
          floodStarts: [at(-20).monotonic, at(-10).monotonic],
        },
      },
    );
  };

  it('keeps back a flood that is owed while more than 15 min are left, and none after that', () => {
    const told = usedUp(0.5);
    let kept = Infinity;
    for (let now = 0.25; startsOf(told).length === 0 && now < 39; now += 0.25) {
      kept = told.tell(now, seen(now, ...watered(told)())).left().minutes;
    }
    expect(kept).toBeGreaterThan(14);
    expect(kept).toBeLessThan(15);
  });

  it('counts that flood as a start too, and the pump rests its shortest off before', () => {
    const told = usedUp(0.22);
    told.lookOn(2, watered(told));
    // Told off at the first step, and for half a minute.
    expect(startsOf(told)).toEqual([0.75]);
    expect(told.state().guard.floodStarts).toHaveLength(3);
  });
});

describe('a flood that has not begun, though nothing forbids it', () => {
  /** As a defect of the program would have it: asked off at noon, and no flood for as long as told. */
  const idleFor = (minutes: number): Told => {
    const farm = farmWith();
    const started = begin(farm, at(0), { kind: 'up' });
    const told = toldFrom(farm, 0, { kind: 'up' }, started);
    told.tell(0.25, seen(0.25, ...watered(told)()));
    const running = told.state();
    const idle = {
      ...running,
      flood: null,
      guard: { ...running.guard, asked: { kind: 'off', since: at(1).monotonic } },
      // Whatever keeps it back: here a start that is counted in the future.
      schedule: { ...running.schedule, lastEnd: at(minutes).monotonic },
    } as const;
    return toldFrom(farm, minutes, { kind: 'up' }, idle);
  };

  it('is told as benches that dry out, ten minutes after the longest rest', () => {
    const early = idleFor(80);
    early.tell(80, { kind: 'time' });
    expect(early.raised('drying-out')).toEqual([]);
    const late = idleFor(90);
    late.tell(90, { kind: 'time' });
    expect(late.raised('drying-out')).toEqual([90]);
    expect(late.entries().find((entry) => entry.kind === 'alarm-raised')).toMatchObject({
      text: expect.stringContaining('no flood has begun, though one is due') as string,
    });
  });

  it('is over when one begins', () => {
    const late = idleFor(90);
    late.tell(90, { kind: 'time' });
    late.lookOn(120, watered(late));
    expect(startsOf(late).length).toBeGreaterThan(0);
    expect(late.returned('drying-out')).toHaveLength(1);
  });
});
