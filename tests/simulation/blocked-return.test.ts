import { describe, expect, it } from 'vitest';
import type { Farm } from '../../src/farm/farm.ts';
import { blockedReturn } from './blocked-return.ts';
import { HOUR, lowestTheta, runShed, timesRaised, told, trueMinutesLeft, type ShedRun } from './shed-run.ts';
import { clock, shedWith } from './sheds.ts';

const MINUTE = 60_000;
const BEGINS = 7;
/** In a rest of the morning, in the middle of a flood at noon, and in a long rest of the evening. */
const HOURS = [8, 12.7, 17];
const BLOCKED_HOURS = 3;
/** Nothing comes back, or a third of it. */
const SHARES = [0, 0.3];
const CASES = HOURS.flatMap((hour) => SHARES.map((share) => [hour, share] as const));
/** Sips of 20, 20 and 180 s, one in ten minutes. */
const SIP_MINUTES_IN_HALF_AN_HOUR = 220 / 60;

const fittedWith = (evidence: Readonly<Record<string, unknown>>): Farm =>
  shedWith([
    ['evidence'],
    { returnFlow: 'meter', pumpCurrent: true, relayReadBack: true, tankFloat: true, ...evidence },
  ]);
const BOTH = fittedWith({ leakSensor: true, overflowFloat: true });
const ONE = [
  ['leak sensor', fittedWith({ leakSensor: true })],
  ['overflow float', fittedWith({ overflowFloat: true })],
] as const;
const NONE = [
  ['a meter on the return', fittedWith({})],
  ['a meter and the level of the tank', fittedWith({ tankLevel: true })],
  ['no sensor on the return either', fittedWith({ returnFlow: 'none' })],
] as const;

interface BlockedRun extends ShedRun {
  readonly floorLitres: number;
  readonly clearedAtMillis: number;
  readonly leftAtBlock: number;
}

const blocked = (farm: Farm, hour: number, share: number): BlockedRun => {
  const fromMillis = clock(hour);
  const clearedAtMillis = fromMillis + BLOCKED_HOURS * HOUR;
  const block = blockedReturn({ fromMillis, share, clearedAtMillis });
  let leftAtBlock = 0;
  const run = runShed({
    farm,
    fromMillis: clock(BEGINS),
    untilMillis: clearedAtMillis + 3 * HOUR,
    seed: Math.round(60 * hour),
    at: {
      millis: fromMillis,
      does: (plant) => (leftAtBlock = trueMinutesLeft(plant, farm.floors.wilt)),
    },
    works: block.works,
    heard: block.heard,
  });
  return { ...run, floorLitres: block.floorLitres(), clearedAtMillis, leftAtBlock };
};

/** The first sign of water on the floor, until the pipe is clear. */
const whileWet = <Item extends { readonly at: number }>(
  run: BlockedRun,
  items: readonly Item[],
): readonly Item[] => {
  const wetAt = run.alarms.find(({ entry }) => entry.alarm === 'water-on-floor')!.entry.at;
  return items.filter(({ at }) => at >= wetAt && at < run.clearedAtMillis);
};

/** The floor must be dry for an hour, and a whole flood, after a short one and a rest of the evening, must leave the float still. */
const LEFT_MINUTES: Readonly<Record<string, number>> = { 'water-on-floor': 65, 'tank-low': 130 };

/** When the pipe is clear and a flood that began into the blocked one is over: the float may still have stopped that one. */
const settledAt = (run: BlockedRun): number => {
  const verdicts = told(run, 'verdict');
  const begunBefore = told(run, 'flood-started').filter(({ at }) => at < run.clearedAtMillis);
  const ends = begunBefore.map(({ flood }) => verdicts.find((verdict) => verdict.flood === flood)!.at);
  return Math.max(run.clearedAtMillis, ...ends);
};

/** Each alarm once, the first of them high and in time, and none left for long after the pipe is clear. */
const expectTold = (run: BlockedRun, farm: Farm, kinds: readonly string[]): void => {
  const times = timesRaised(run);
  expect(Object.keys(times).filter((kind) => !kinds.includes(kind))).toEqual([]);
  expect(Math.max(...Object.values(times))).toBe(1);
  const { entry, plant } = run.alarms[0]!;
  expect(entry.priority).toBe('high');
  expect(trueMinutesLeft(plant, farm.floors.wilt) / run.leftAtBlock).toBeGreaterThanOrEqual(0.5);
  const returned = told(run, 'alarm-returned');
  expect(returned.map(({ alarm }) => alarm).toSorted()).toEqual(Object.keys(times).toSorted());
  for (const { alarm, at } of returned) {
    // The floor dries whatever the floods do; all else ends with a flood.
    const from = alarm === 'water-on-floor' ? run.clearedAtMillis : settledAt(run);
    expect((at - from) / MINUTE).toBeLessThanOrEqual(LEFT_MINUTES[alarm] ?? 30);
  }
};

/** No more can reach the floor than the pump could take from the tank and what came into it meanwhile. */
const expectFloorBounded = ({ floorLitres, plant }: BlockedRun, farm: Farm): void => {
  const { usualLitres, dryLitres } = farm.tank;
  expect(floorLitres).toBeGreaterThan(100);
  expect(floorLitres).toBeLessThanOrEqual(usualLitres - dryLitres + plant.state.tank.toppedUpLitres);
};

describe('a blocked return with leak sensor and overflow float, for three hours', () => {
  it.each(CASES)(
    'from %f h, %f of it left: both wet stop the floods; sips of 220 s in half an hour keep every bench above its wilt floor',
    (hour, share) => {
      const run = blocked(BOTH, hour, share);
      expect(run.alarms[0]!.entry.text).toMatch(/leak sensor and overflow float are both wet/);
      expect(whileWet(run, told(run, 'flood-started'))).toEqual([]);
      expect(whileWet(run, told(run, 'sip')).length).toBeGreaterThanOrEqual(12);
      expect(lowestTheta(run)).toBeGreaterThan(BOTH.floors.stress);
      const fullLitresPerMinute = 40;
      const halves = 2 * BLOCKED_HOURS + 1;
      // A flood may have been on its way, or half of it in the channels, when the pipe was blocked.
      const beforeStop = 4 * fullLitresPerMinute;
      const sips = halves * SIP_MINUTES_IN_HALF_AN_HOUR * fullLitresPerMinute;
      expect(run.floorLitres).toBeLessThanOrEqual(beforeStop + sips);
      expectTold(run, BOTH, ['water-on-floor', 'drying-out']);
    },
  );
});

describe.each(ONE)('a blocked return with a %s alone, for three hours', (_, farm) => {
  it.each(CASES)(
    'from %f h, %f of it left: floods of 10 min, none tried again, while there is water; every bench above its stress floor',
    (hour, share) => {
      const run = blocked(farm, hour, share);
      expect(run.alarms[0]!.entry.alarm).toBe('water-on-floor');
      const floods = whileWet(run, told(run, 'flood-started'));
      expect(floods.length).toBeGreaterThanOrEqual(3);
      for (const { minutes } of floods) expect(minutes).toBe(farm.bounds.floodMinutes.shortest);
      expect(whileWet(run, told(run, 'flood-retried'))).toEqual([]);
      expect(lowestTheta(run)).toBeGreaterThan(farm.floors.stress);
      expectFloorBounded(run, farm);
      expectTold(run, farm, ['water-on-floor', 'missed-flood', 'tank-low', 'drying-out']);
    },
  );
});

describe.each(NONE)('a blocked return with nothing on the floor, but %s, for three hours', (_, farm) => {
  it.each(CASES)(
    'from %f h, %f of it left: told by the missed flood or the low tank; every bench above its stress floor',
    (hour, share) => {
      const run = blocked(farm, hour, share);
      expect(lowestTheta(run)).toBeGreaterThan(farm.floors.stress);
      expectFloorBounded(run, farm);
      // A level sensor sees, beside the float, that the tank is too low and goes on falling; the low tank speaks for that.
      const seen = farm.evidence.tankLevel ? ['tank-falls'] : [];
      expectTold(run, farm, ['missed-flood', 'tank-low', 'drying-out', ...seen]);
      expect(told(run, 'alarm-called').map(({ alarm }) => alarm)).not.toContain('tank-falls');
    },
  );
});
