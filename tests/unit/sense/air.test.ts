import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Sample } from '../../../src/ports/sample.ts';
import { goodValue, type Reading } from '../../../src/sense/reading.ts';
import { absorbed, airCelsius, NO_SENSES } from '../../../src/sense/senses.ts';
import { second } from '../../support/moments.ts';

type Spoken = readonly [seconds: number, celsius: number];

const sample = ([seconds, celsius]: Spoken): Sample => ({
  channel: 'air-temperature',
  celsius,
  at: second(seconds),
});

/** The reading at `now` s when each sample came as it was taken. */
const readingAt = (now: number, ...spoken: readonly Spoken[]): Reading<number> =>
  airCelsius(
    spoken.reduce((senses, one) => absorbed(senses, [sample(one)], second(one[0])), NO_SENSES),
    second(now),
  );

const check = (reading: Reading<number>, quality: string, why?: RegExp): void => {
  expect(reading.quality).toBe(quality);
  if (why !== undefined) expect(reading).toMatchObject({ why: expect.stringMatching(why) as unknown });
};

describe('one air reading by itself', () => {
  it('is absent before the first sample', () => {
    check(airCelsius(NO_SENSES, second(0)), 'absent', /the air thermometer has not spoken/);
  });

  it.each([-20, 0, 33.1, 60])('%d °C is weather', (celsius) => {
    expect(readingAt(5, [0, celsius])).toEqual({ quality: 'good', value: celsius, ageSeconds: 5 });
  });

  it.each([-20.1, -127, 60.1, 85, Number.NaN, Infinity, -Infinity])(
    '%d °C is an open or shorted thermometer, not weather',
    (celsius) => {
      check(readingAt(5, [0, celsius]), 'absent', /open or shorted/);
    },
  );

  it('is good at 600 s and stale at 601 s, with its value and its age', () => {
    expect(readingAt(600, [0, 30])).toEqual({ quality: 'good', value: 30, ageSeconds: 600 });
    expect(readingAt(601, [0, 30])).toEqual({
      quality: 'stale',
      value: 30,
      ageSeconds: 601,
      why: 'last reading is 601 s old',
    });
  });

  it('only a good reading gives its value away', () => {
    expect(goodValue(readingAt(600, [0, 30]))).toBe(30);
    expect(goodValue(readingAt(601, [0, 30]))).toBeUndefined();
    expect(goodValue(readingAt(0))).toBeUndefined();
    expect(goodValue(readingAt(60, [0, 20], [60, 30]))).toBeUndefined();
  });
});

describe('a jump', () => {
  it('of 3 °C in a minute is weather, of 3.1 °C is none', () => {
    check(readingAt(60, [0, 30], [60, 33]), 'good');
    check(readingAt(60, [0, 30], [60, 33.1]), 'suspect', /jumped/);
    check(readingAt(60, [0, 30], [60, 26.9]), 'suspect', /jumped/);
  });

  it('of 1.5 °C within a second is noise, of 1.6 °C is none: a rate is taken over half a minute at least', () => {
    check(readingAt(1, [0, 30], [1, 31.5]), 'good');
    check(readingAt(1, [0, 30], [1, 31.6]), 'suspect');
    check(readingAt(0, [0, 30], [0, 31.6]), 'suspect');
  });

  it('of 20 °C over 10 min is weather', () => {
    check(readingAt(600, [0, 15], [600, 35]), 'good');
  });

  it('that comes back to within 1.5 °C of where it was is forgotten 5 min after it came back, not before', () => {
    const jump: readonly Spoken[] = [
      [0, 20],
      [30, 40],
      [60, 21.5],
      [359, 21.5],
    ];
    check(readingAt(359, ...jump), 'suspect', /jumped/);
    expect(readingAt(360, ...jump)).toEqual({ quality: 'good', value: 21.5, ageSeconds: 1 });
  });

  it('that does not come back is believed after half a day, not before', () => {
    const jump: readonly Spoken[] = [
      [0, 20],
      ...Array.from({ length: 721 }, (_, minute): Spoken => [30 + 60 * minute, 40 + minute / 100]),
    ];
    check(readingAt(43_229, ...jump.slice(0, -1)), 'suspect', /jumped/);
    check(readingAt(43_230, ...jump), 'good');
  });

  it('to nothing readable and back to 5 °C, where it was 35 °C, is a jump as well', () => {
    check(readingAt(60, [0, 35], [30, Number.NaN], [60, 5]), 'suspect', /jumped/);
    check(readingAt(60, [0, 35], [30, -127], [60, 5]), 'suspect', /jumped/);
  });
});

describe('a thermometer that hangs', () => {
  const every10Min = (minutes: number, celsius: (minute: number) => number): readonly Spoken[] =>
    Array.from({ length: minutes / 10 + 1 }, (_, step): Spoken => [step * 600, celsius(step * 10)]);

  it('at 25 °C is good for three hours and suspect afterwards', () => {
    check(readingAt(10_800, ...every10Min(180, () => 25)), 'good');
    check(
      readingAt(10_801, ...every10Min(180, () => 25)),
      'suspect',
      /the air thermometer has not moved for 3 hours/,
    );
  });

  it('and flickers by 0.04 °C hangs as well', () => {
    check(readingAt(11_400, ...every10Min(190, (minute) => 25 + (minute % 20) / 250)), 'suspect');
  });

  it('and moves by 0.06 °C once is alive for three more hours', () => {
    const once = (minute: number): number => (minute < 100 ? 25 : 25.06);
    check(readingAt(16_800, ...every10Min(280, once)), 'good');
    check(readingAt(17_400, ...every10Min(290, once)), 'suspect');
  });

  it('does not pass for alive because it was unreadable once in between', () => {
    for (const unreadable of [Number.NaN, -127]) {
      const loose = (minute: number): number => (minute === 100 ? unreadable : 25);
      check(readingAt(11_400, ...every10Min(190, loose)), 'suspect', /not moved/);
    }
  });
});

describe('whatever the thermometer says', () => {
  it('a good value lies between −20 and 60 °C and is at most 600 s old', () => {
    const spoken = fc.array(
      fc.tuple(fc.integer({ min: 0, max: 20_000 }), fc.double({ min: -200, max: 200 })),
      {
        maxLength: 20,
      },
    );
    fc.assert(
      fc.property(spoken, fc.integer({ min: 0, max: 1000 }), (list, later) => {
        const inOrder = list.toSorted((a, b) => a[0] - b[0]);
        const reading = readingAt((inOrder.at(-1)?.[0] ?? 0) + later, ...inOrder);
        if (reading.quality !== 'good') return;
        expect(reading.value >= -20 && reading.value <= 60).toBe(true);
        expect(reading.ageSeconds).toBeLessThanOrEqual(600);
      }),
      { numRuns: 500 },
    );
  });
});
