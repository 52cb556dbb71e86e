import { describe, expect, it } from 'vitest';
import { keptState, resumed } from '../../../src/controller.ts';
import { farmWith } from '../../support/farm.ts';
import { at, seen, toldFrom, type Said, type Told } from './noon.ts';

const FARM = farmWith(
  [['evidence'], { returnFlow: 'switch', tankLevel: true }],
  [['sensors'], { airTemperature: true, humidity: true }],
);
const LAG_MINUTES = 3;
/** Channels that return water for so long after each stop. */
const DRAIN_MINUTES = 15;
const USUAL_LITRES = 520;
const STEP_MINUTES = 0.25;

interface Faults {
  readonly stuckFrom?: number;
  readonly deadFrom?: number;
  /** The level is not read from then on, for five minutes. */
  readonly levelGoneAt?: number;
  /** From then on the air grows hotter, until rests are too short to tell a sensor that sticks. */
  readonly hotFrom?: number;
}

/** A pump with slow channels, told of a look every quarter of a minute. */
const shed = (
  told: Told,
  from: number,
  { stuckFrom, deadFrom, levelGoneAt, hotFrom = Infinity }: Faults = {},
) => {
  let pump: 'on' | 'off' = 'off';
  let since = from - 60;
  let inChannels = 0;
  let now = from;
  const look = (): readonly Said[] => {
    const dead = deadFrom !== undefined && now >= deadFrom;
    const flows = pump === 'on' && !dead;
    inChannels = flows
      ? Math.min(160, inChannels + 40 * STEP_MINUTES)
      : inChannels * Math.exp(-STEP_MINUTES / 6);
    const back = flows ? now - since >= LAG_MINUTES : pump === 'off' && now - since <= DRAIN_MINUTES && !dead;
    const levelGone = levelGoneAt !== undefined && now >= levelGoneAt && now < levelGoneAt + 5;
    const level: readonly Said[] = levelGone
      ? []
      : [{ channel: 'tank-level', litres: USUAL_LITRES - inChannels }];
    const air = 34 + Math.min(9, 0.2 * Math.max(0, now - hotFrom));
    return [
      { channel: 'return-switch', flowing: back || (stuckFrom !== undefined && now >= stuckFrom) },
      ...level,
      { channel: 'air-temperature', celsius: air + 0.1 * Math.sin(now) },
      { channel: 'humidity', percent: 45 + Math.sin(now) },
    ];
  };
  return {
    until: (minutes: number): void => {
      for (now += STEP_MINUTES; now <= minutes; now += STEP_MINUTES) {
        for (const { kind } of told.tell(now, seen(now, ...look())).commands) {
          if (kind !== 'pump-on' && kind !== 'pump-off') continue;
          const next = kind === 'pump-on' ? 'on' : 'off';
          if (next !== pump) [pump, since] = [next, now];
        }
      }
      now -= STEP_MINUTES;
    },
  };
};

/** Late in the evening of the clock of the example farm; rests are long then. */
const EVENING = 600;
const MORNING = 1230;
const times = (told: Told): number => told.raised('flow-sensor-stuck').length;

describe('channels that drain for longer than most', () => {
  it('have their sensor told once, not after each flood, by day and night', () => {
    const told = toldFrom(FARM, EVENING);
    shed(told, EVENING).until(5000);
    const verdicts = told.entries().filter((entry) => entry.kind === 'verdict');
    expect(verdicts.length).toBeGreaterThan(50);
    expect(times(told)).toBe(1);
    expect(told.returned('flow-sensor-stuck')).toHaveLength(1);
    expect(told.state().memory.returnTrust.drained).toBe(true);
  });

  it('do not hide a sensor that sticks: 20 min after a stop', () => {
    const told = toldFrom(FARM, EVENING);
    shed(told, EVENING, { stuckFrom: MORNING }).until(MORNING + 33);
    const stop = told.commands().findLast((one) => one.startsWith('pump-off'));
    expect(told.raised('flow-sensor-stuck')[1]).toBe(Number(stop?.split(' at ')[1]) + 20.25);
  });

  it('nor, where rests are shorter, a pump that dies beside it: after the first flood that nothing proves', () => {
    const told = toldFrom(FARM, EVENING);
    const deadFrom = MORNING + 60;
    shed(told, EVENING, { stuckFrom: MORNING, hotFrom: MORNING + 5, deadFrom }).until(deadFrom + 60);
    const verdicts = told.entries().filter((entry) => entry.kind === 'verdict');
    const [unproven] = verdicts.filter(({ verdict }) => verdict.kind === 'unproven');
    expect(unproven?.at).toBeLessThan((deadFrom + 30) * 60_000);
    expect(told.raised('flow-sensor-stuck')[1]).toBe((unproven?.at ?? 0) / 60_000);
  });

  it('are not told of for a level that is silent in a rest', () => {
    const told = toldFrom(FARM, EVENING);
    shed(told, EVENING, { levelGoneAt: 779 }).until(830);
    expect(times(told)).toBe(1);
  });

  it.each([
    ['a restart in the doubt of a rest', 0.3, 'same'],
    ['three hours without power', 180, 'another'],
  ] as const)('nor after %s', (_, minutes, boot) => {
    const before = toldFrom(FARM, EVENING);
    shed(before, EVENING).until(783);
    expect(before.state().memory.returnTrust.stuckSince).not.toBeNull();
    expect(times(before)).toBe(1);

    const born = 783 + minutes;
    const kept = keptState(before.state(), at(783));
    const link = { kind: 'up' } as const;
    const told = toldFrom(FARM, born, link, resumed(FARM, kept, at(born), minutes, link, boot));
    shed(told, born).until(born + 150);
    expect(times(told)).toBe(0);
    expect(told.entries().some((entry) => entry.kind === 'verdict')).toBe(true);
  });
});
