import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  guardAtStart,
  permitted,
  restingSince,
  takenOver,
  withStarts,
  type Permit,
  type PumpGuard,
  type PumpWish,
} from '../../../src/command/pump-guard.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { monotonicMillis, type MonotonicMillis } from '../../../src/time/instant.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minute, second } from '../../support/moments.ts';
import { between } from '../../support/between.ts';

interface Limits {
  readonly longestOnMinutes: number;
  readonly shortestOffSeconds: number;
  readonly startsPerHour: number;
}
const LIMITS: Limits = { longestOnMinutes: 45, shortestOffSeconds: 30, startsPerHour: 4 };

const farmOf = ({ startsPerHour, ...pump }: Limits): Farm => ({
  ...exampleFarm,
  pump: { ...exampleFarm.pump, ...pump },
  bounds: { ...exampleFarm.bounds, startsPerHour },
});
const FARM = farmOf(LIMITS);

const OFF: PumpWish = { kind: 'off' };
const on = (minutes: number, purpose: 'flood' | 'retry' | 'sip' = 'flood'): PumpWish => ({
  kind: 'on',
  minutes,
  purpose,
});

interface Asked {
  readonly at: MonotonicMillis;
  readonly wish: PumpWish;
}

/** What the guard made of a list of wishes. */
const run = (farm: Farm, wishes: readonly Asked[]): { guard: PumpGuard; permits: readonly Permit[] } => {
  let guard = guardAtStart(minute(0));
  const permits = wishes.map(({ at, wish }) => {
    const permit = permitted(farm, guard, wish, at);
    ({ guard } = permit);
    return permit;
  });
  return { guard, permits };
};
const lastOf = (farm: Farm, ...wishes: readonly Asked[]): Permit => run(farm, wishes).permits.at(-1)!;

describe('one wish', () => {
  it('20 min on is granted as 1200 s, off as off', () => {
    expect(lastOf(FARM, { at: minute(1), wish: on(20) }).commands).toEqual([
      { kind: 'pump-on', longest: 1200 },
    ]);
    const stop = [
      { at: minute(1), wish: on(20) },
      { at: minute(21), wish: OFF },
    ];
    expect(lastOf(FARM, ...stop).commands).toEqual([{ kind: 'pump-off' }]);
  });

  it('90 min on is granted as the longest on of 45 min', () => {
    const { commands, guard } = lastOf(FARM, { at: minute(1), wish: on(90) });
    expect(commands).toEqual([{ kind: 'pump-on', longest: 2700 }]);
    expect(guard.asked).toMatchObject({ kind: 'on', until: minute(46) });
  });

  it('on while on and off while off say nothing to the board', () => {
    const twice = [
      { at: minute(1), wish: on(20) },
      { at: minute(2), wish: on(20) },
    ];
    expect(lastOf(FARM, ...twice)).toMatchObject({ commands: [], refused: null });
    expect(lastOf(FARM, { at: minute(1), wish: OFF })).toMatchObject({ commands: [], refused: null });
  });

  it('on while on does not lengthen the run', () => {
    const twice = [
      { at: minute(1), wish: on(20) },
      { at: minute(15), wish: on(20) },
    ];
    expect(lastOf(FARM, ...twice).guard.asked).toMatchObject({ since: minute(1), until: minute(21) });
  });
});

describe('shortest off of 30 s', () => {
  it('counts from the start of the program: the pump may just have stopped', () => {
    const { refused, commands } = lastOf(FARM, { at: second(29), wish: on(20) });
    expect(commands).toEqual([]);
    expect(refused).toEqual({ reason: 'shortest off', until: second(30) });
    expect(lastOf(FARM, { at: second(30), wish: on(20) }).refused).toBeNull();
  });

  it('is over at the moment that the refusal names, also where adding 30 s to the clock rounds down', () => {
    // Half a unit in the last place is lost where the sum crosses a power of two.
    const guard = guardAtStart(monotonicMillis(2 ** 20 - 1000 + 2 ** -33));
    const { refused } = permitted(FARM, guard, on(20), monotonicMillis(2 ** 20));
    expect(permitted(FARM, guard, on(20), refused!.until).refused).toBeNull();
  });

  it.each(['flood', 'retry', 'sip'] as const)('holds for a %s as well', (purpose) => {
    const wishes = [
      { at: minute(1), wish: on(1) },
      { at: minute(2), wish: OFF },
    ];
    expect(lastOf(FARM, ...wishes, { at: second(149), wish: on(1, purpose) }).refused).not.toBeNull();
    expect(lastOf(FARM, ...wishes, { at: second(150), wish: on(1, purpose) }).refused).toBeNull();
  });
});

describe('4 starts an hour', () => {
  /** Four floods of a minute at 10, 20, 30 and 40 min. */
  const four = [10, 20, 30, 40].flatMap((at) => [
    { at: minute(at), wish: on(1) },
    { at: minute(at + 1), wish: OFF },
  ]);

  it('a fifth waits until the first is an hour old', () => {
    const { refused } = lastOf(FARM, ...four, { at: minute(50), wish: on(20) });
    expect(refused).toEqual({ reason: '4 starts in the last hour', until: minute(70) });
    expect(lastOf(FARM, ...four, { at: minute(70), wish: on(20) }).refused).toBeNull();
  });

  it.each(['retry', 'sip'] as const)('a %s has a budget of its own', (purpose) => {
    expect(lastOf(FARM, ...four, { at: minute(50), wish: on(3, purpose) }).refused).toBeNull();
  });

  it('four retries and four sips leave the four floods of the hour untouched', () => {
    const others = (['retry', 'sip'] as const).flatMap((purpose, half) =>
      [1, 3, 5, 7].flatMap((at) => [
        { at: minute(half * 8 + at), wish: on(1, purpose) },
        { at: minute(half * 8 + at + 1), wish: OFF },
      ]),
    );
    const floods = four.map(({ at, wish }) => ({ at: monotonicMillis(at + minute(10)), wish }));
    const granted = run(FARM, [...others, ...floods]).permits.map(({ refused }) => refused);
    expect(granted.every((refused) => refused === null)).toBe(true);
  });
});

describe('whatever is wished', () => {
  const limits = fc.record<Limits>({
    longestOnMinutes: fc.integer({ min: 1, max: 90 }),
    shortestOffSeconds: fc.integer({ min: 10, max: 600 }),
    startsPerHour: fc.integer({ min: 1, max: 12 }),
  });
  const wish = fc.oneof(
    fc.constant(OFF),
    fc.record({
      kind: fc.constant('on' as const),
      minutes: between(0.1, 200),
      purpose: fc.constantFrom('flood' as const, 'retry' as const, 'sip' as const),
    }),
  );
  /** Wishes after spans of any fraction of a second, from none to twenty minutes. */
  const wishes = fc
    .array(fc.tuple(between(0, 1200), wish), { maxLength: 60 })
    .map((list): readonly Asked[] => {
      let at = 0;
      return list.map(([span, wished]) => ({ at: second((at += span)), wish: wished }));
    });

  it('on and off take turns, rests are kept, runs are bounded, starts are counted', () => {
    fc.assert(
      fc.property(limits, wishes, (chosen, list) => {
        const { permits } = run(farmOf(chosen), list);
        let offSince: number | null = minute(0);
        const floodStarts: number[] = [];
        permits.forEach(({ commands }, place) => {
          const { at, wish: wished } = list[place]!;
          expect(commands.length).toBeLessThanOrEqual(1);
          for (const command of commands) {
            if (command.kind === 'pump-off') {
              expect(offSince).toBeNull();
              offSince = at;
              continue;
            }
            expect(offSince).not.toBeNull();
            // A millionth of a millisecond for sums of fractions.
            expect(at - offSince!).toBeGreaterThanOrEqual(chosen.shortestOffSeconds * 1000 - 1e-6);
            expect(command.longest).toBeLessThanOrEqual(chosen.longestOnMinutes * 60);
            expect(command.longest).toBeGreaterThan(0);
            offSince = null;
            if (wished.kind === 'on' && wished.purpose === 'flood') floodStarts.push(at);
          }
        });
        floodStarts.forEach((start, place) => {
          const another = floodStarts[place + chosen.startsPerHour];
          if (another !== undefined) expect(another - start).toBeGreaterThanOrEqual(3_600_000 - 1e-6);
        });
      }),
      { numRuns: 500 },
    );
  });

  it('off is never refused', () => {
    fc.assert(
      fc.property(limits, wishes, (chosen, list) => {
        const { guard } = run(farmOf(chosen), list);
        const { refused, guard: after } = permitted(farmOf(chosen), guard, OFF, minute(2000));
        expect([refused, after.asked.kind]).toEqual([null, 'off']);
      }),
    );
  });

  it('a refused wish is granted at the moment that the refusal names', () => {
    fc.assert(
      fc.property(limits, wishes, (chosen, list) => {
        const farm = farmOf(chosen);
        let guard = guardAtStart(minute(0));
        for (const { at, wish: wished } of list) {
          const permit = permitted(farm, guard, wished, at);
          ({ guard } = permit);
          if (permit.refused === null) continue;
          const again = permitted(farm, guard, wished, permit.refused.until);
          // Shortest off first, then perhaps the hour: never a third time.
          if (again.refused === null) continue;
          expect(again.refused.reason).toContain('starts');
          expect(permitted(farm, guard, wished, again.refused.until).refused).toBeNull();
        }
      }),
      { numRuns: 500 },
    );
  });
});

describe('a run of the board’s that is taken over', () => {
  /** It began at 100 min; it is 110 now. */
  const taken = (until: number, wanted: number): Permit =>
    takenOver(
      FARM,
      guardAtStart(minute(0)),
      { since: minute(100), until: minute(until), wanted: minute(wanted), purpose: 'flood' },
      minute(110),
    );

  it('is told nothing where both want the same end, to 5 s', () => {
    const permit = taken(120, 120 + 5 / 60);
    expect(permit.commands).toEqual([]);
    expect(permit.guard.asked).toEqual({
      kind: 'on',
      since: minute(100),
      until: minute(120),
      purpose: 'flood',
    });
  });

  it.each([
    [120, 130, 20],
    [120, 115, 5],
    [120, 200, 35],
  ])('to %d min and wanted to %d gets %d min more, never past 45 of longest-on', (until, wanted, minutes) => {
    const permit = taken(until, wanted);
    expect(permit.commands).toEqual([{ kind: 'pump-on', longest: minutes * 60 }]);
    expect(permit.guard.asked).toMatchObject({ kind: 'on', until: minute(110 + minutes) });
  });

  it('is not prolonged when it ends within 5 s: the word might come too late and start it anew', () => {
    const permit = taken(110 + 5 / 60, 130);
    expect(permit.commands).toEqual([]);
    expect(permit.guard.asked).toMatchObject({ until: minute(110 + 5 / 60) });
  });

  it('is not told on for an end that has passed', () => {
    expect(taken(120, 109).commands).toEqual([]);
  });

  it('counts as one of the 4 starts of the hour, with those that the board made before', () => {
    const guard = withStarts(
      restingSince(guardAtStart(minute(0)), minute(105)),
      [60, 70, 80, 100].map((at) => minute(at)),
    );
    expect(permitted(FARM, guard, on(20), minute(110)).refused?.until).toBe(minute(120));
    expect(permitted(FARM, guard, on(20), minute(120)).refused).toBeNull();
  });

  it('leaves a motor that the board stopped its 30 s', () => {
    const guard = restingSince(guardAtStart(minute(0)), minute(110));
    expect(permitted(FARM, guard, on(20), minute(110)).refused?.until).toBe(minute(110.5));
  });
});
