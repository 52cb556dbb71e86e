import { describe, expect, it } from 'vitest';
import type { Seen } from '../../../src/sense/seen.ts';
import {
  returnTrust,
  toldStuckSince,
  TRUSTED,
  unprovenBeside,
  type ReturnLook,
  type ReturnTrust,
} from '../../../src/verify/return-trust.ts';
import { minute } from '../../support/moments.ts';

/** What a sensor shows at minutes since the pump was asked off; negative minutes are of the flood before. */
type Shown = readonly [minutes: number, shows: Seen];

const lookedAt = (trust: ReturnTrust, look: ReturnLook, minutes: number): ReturnTrust =>
  returnTrust(trust, look, Math.max(0, minutes), minute(1000 + minutes));
const trustAfter = (shown: readonly Shown[], before: ReturnTrust = TRUSTED): ReturnTrust =>
  shown.reduce(
    (trust, [minutes, shows]) => lookedAt(trust, { shows, litresPerMinute: null }, minutes),
    before,
  );
const stuckSince = (...shown: readonly Shown[]): number | null => {
  const { stuckSince: since } = trustAfter(shown);
  return since === null ? null : since / 60_000 - 1000;
};
const from = (start: number, end: number, shows: Seen, step = 0.5): readonly Shown[] =>
  Array.from({ length: (end - start) / step + 1 }, (_, place): Shown => [start + place * step, shows]);

describe('a return sensor in a rest', () => {
  it('may show what the channels drain for 12 min', () => {
    expect(stuckSince(...from(-20, 12, 'seen'))).toBeNull();
    expect(stuckSince(...from(-20, 12, 'seen'), [12.9, 'seen'], [13.8, 'seen'])).toBeNull();
  });

  it('proves nothing once it shows water after 12 min and again a minute later', () => {
    expect(stuckSince(...from(-20, 13, 'seen'))).toBeNull();
    expect(stuckSince(...from(-20, 13.5, 'seen'))).toBe(13.5);
  });

  it('one false word and one of another rest are glitches', () => {
    expect(stuckSince([13, 'seen'], [13.5, 'unknown'], [13.7, 'unknown'])).toBeNull();
    expect(stuckSince([13, 'seen'], [14, 'seen'])).toBe(14);
    const firstRest = trustAfter([[13, 'seen']]);
    const water: ReturnLook = { shows: 'seen', litresPerMinute: null };
    const flood = returnTrust(firstRest, water, 0, minute(1020));
    expect(returnTrust(flood, water, 13, minute(1060)).stuckSince).toBeNull();
  });

  it('that shows water three times now and then, never quiet for 10 min, proves nothing either', () => {
    const twice: readonly Shown[] = [[21, 'seen'], ...from(21.5, 30.5, 'not-seen'), [30.9, 'seen']];
    expect(stuckSince(...twice)).toBeNull();
    expect(stuckSince(...twice, [31.5, 'not-seen'], [40, 'seen'])).toBeCloseTo(40, 9);
  });

  it('that rattles for less than a minute has shown it once', () => {
    const rattles = from(21, 21.8, 'seen', 0.2).flatMap(([at]): readonly Shown[] => [
      [at, 'seen'],
      [at + 0.1, 'not-seen'],
    ]);
    expect(stuckSince(...rattles)).toBeNull();
    expect(stuckSince(...rattles, [22, 'seen'], [22.1, 'not-seen'], [22.9, 'seen'])).toBeNull();
    expect(stuckSince(...rattles, [22, 'seen'], [22.1, 'not-seen'], [23, 'seen'])).toBe(23);
  });

  it('that sticks after it was denied once proves nothing a minute later', () => {
    expect(stuckSince([21, 'seen'], [22, 'not-seen'], ...from(23, 24, 'seen'))).toBe(24);
    expect(stuckSince([21, 'seen'], [22, 'not-seen'], [23, 'unknown'], ...from(24, 24.5, 'seen'))).toBeNull();
  });

  it('that shows water now and then until 20 min may be a switch at its limit while the channels drain', () => {
    const wavers: readonly Shown[] = [[13, 'seen'], ...from(13.5, 17.5, 'not-seen'), [18, 'seen']];
    expect(stuckSince(...wavers)).toBeNull();
    expect(stuckSince(...wavers, [19, 'seen'])).toBe(19);
  });

  it('that was quiet for 10 min between two false words is only glitching', () => {
    expect(stuckSince([21, 'seen'], ...from(21.5, 31.5, 'not-seen'), [32, 'seen'])).toBeNull();
  });
});

describe('a return sensor that proves nothing', () => {
  const stuck = trustAfter([
    [13, 'seen'],
    [14, 'seen'],
  ]);

  it('is trusted again after it has shown none for 10 min on end, not before', () => {
    expect(trustAfter(from(15, 24.5, 'not-seen'), stuck).stuckSince).toBe(minute(1014));
    expect(trustAfter(from(15, 25, 'not-seen'), stuck).stuckSince).toBeNull();
  });

  it('is not by 10 min with one word of water among them, nor by 10 min of silence', () => {
    const once = trustAfter(
      [...from(15, 20, 'not-seen'), [20.5, 'seen'], ...from(21, 30.5, 'not-seen')],
      stuck,
    );
    expect(once.stuckSince).toBe(minute(1014));
    expect(trustAfter(from(15, 60, 'unknown'), stuck).stuckSince).toBe(minute(1014));
    const halves = [...from(15, 20, 'not-seen'), [20.5, 'unknown'] as const, ...from(21, 30.5, 'not-seen')];
    expect(trustAfter(halves, stuck).stuckSince).toBe(minute(1014));
  });

  it('keeps its first moment through floods and rests in which it still shows water', () => {
    const next = from(-20, 30, 'seen').map(([at, shows]): Shown => [at + 100, shows]);
    expect(trustAfter(next, stuck).stuckSince).toBe(minute(1014));
  });
});

describe('people are told of a return sensor that proves nothing', () => {
  const told = (trust: ReturnTrust): number | null => {
    const since = toldStuckSince(trust);
    return since === null ? null : since / 60_000 - 1000;
  };
  const slow = trustAfter([...from(-20, 15, 'seen'), ...from(15.5, 26, 'not-seen')]);
  /** The rest after a flood that begins 30 min after the stop before. */
  const next = (before: ReturnTrust, ...shown: readonly Shown[]): ReturnTrust =>
    shown.reduce(
      (trust, [minutes, shows]) =>
        returnTrust(
          trust,
          { shows, litresPerMinute: null },
          Math.max(0, minutes % 60),
          minute(1060 + minutes),
        ),
      before,
    );

  it('at once where it comes so for the first time', () => {
    expect(told(trustAfter(from(-20, 13.5, 'seen')))).toBe(13.5);
    expect(told(slow)).toBeNull();
  });

  it('no more where it came back by itself, as long as it does', () => {
    const again = next(slow, ...from(-20, 19.5, 'seen'));
    expect([again.stuckSince, told(again)]).toEqual([minute(1073.5), null]);
    const third = next(next(again, ...from(20, 31, 'not-seen')), ...from(60, 75, 'seen'));
    expect([third.stuckSince, told(third)]).toEqual([minute(1133.5), null]);
  });

  it('20 min after a stop, where it shows water for longer than any drains, and at once the next time', () => {
    expect(told(next(slow, ...from(-20, 20, 'seen')))).toBeNull();
    const stuck = next(slow, ...from(-20, 20.5, 'seen'));
    expect(told(stuck)).toBe(73.5);
    const mended = next(stuck, ...from(21, 32, 'not-seen'));
    expect(told(mended)).toBeNull();
    expect(told(next(mended, ...from(60, 73.5, 'seen')))).toBe(133.5);
  });

  it('not for one word of water so late, nor for the water of a flood', () => {
    const glitch = next(slow, ...from(-20, 16, 'seen'), ...from(16.5, 20.5, 'not-seen'), [21, 'seen']);
    expect([glitch.stuckSince, told(glitch)]).toEqual([minute(1073.5), null]);
    const flood = from(0, 10, 'seen').reduce(
      (trust, [at]) => returnTrust(trust, { shows: 'seen', litresPerMinute: null }, 0, minute(1220 + at)),
      glitch,
    );
    expect(told(flood)).toBeNull();
  });

  it('once a flood is unproven beside it, until its doubt is over; no other flood speaks against it', () => {
    const again = unprovenBeside(next(slow, ...from(-20, 15, 'seen')));
    expect(told(again)).toBe(73.5);
    expect(told(next(again, ...from(16, 24, 'not-seen')))).toBe(73.5);
    const over = next(again, ...from(16, 26, 'not-seen'));
    expect(told(over)).toBeNull();
    expect(told(next(over, ...from(60, 75, 'seen')))).toBeNull();
    expect(unprovenBeside(slow)).toEqual(slow);
  });
});

describe('a meter in a rest after a flood of 10 L/min, where 2.5 L/min is water', () => {
  const flows = (litresPerMinute: (minutes: number) => number): number | null => {
    const trust = from(-5, 40, 'seen').reduce((before, [minutes]) => {
      const flow = minutes <= 0 ? 10 : litresPerMinute(minutes);
      return lookedAt(before, { shows: flow >= 2.5 ? 'seen' : 'not-seen', litresPerMinute: flow }, minutes);
    }, TRUSTED);
    return trust.stuckSince === null ? null : trust.stuckSince / 60_000 - 1000;
  };

  it('that falls slowly is draining, for 20 min', () => {
    expect(flows((minutes) => 10 * Math.exp(-minutes / 13))).toBeNull();
    expect(flows((minutes) => 10 * Math.exp(-minutes / 40))).toBe(13.5);
  });

  it.each([
    [10, 13.5],
    [5.1, 13.5],
    [5, 21.5],
    [2.5, 21.5],
  ])('that sticks at %d L/min proves nothing after %d min', (stuckAt, after) => {
    expect(flows(() => stuckAt)).toBe(after);
  });

  it('is held against the most it has read in this rest, also where nobody looked on as it began', () => {
    expect(flows((minutes) => (minutes === 3 ? 12 : 5.9))).toBe(21.5);
    const after = (first: number): unknown =>
      [1, 13, 14].reduce(
        (trust, minutes) => {
          const litresPerMinute = minutes === 1 ? first : 3;
          return lookedAt(trust, { shows: 'seen', litresPerMinute }, minutes);
        },
        trustAfter([[0, 'unknown']]),
      ).stuckSince;
    expect([after(10), after(5.9)]).toEqual([null, minute(1014)]);
  });
});
