import { describe, expect, it } from 'vitest';
import { costOf } from '../../../firmware-host/tune/cost.ts';

const STRETCH = { fromMinute: 100, untilMinute: 100 + 1440 };
const EVERYWHERE = new Uint8Array(2000).fill(1);
const floodsAt = (
  begins: readonly number[],
  minutes = 10,
): { readonly begins: Float64Array; readonly ends: Float64Array } => ({
  begins: Float64Array.from(begins),
  ends: Float64Array.from(begins, (begin) => begin + minutes),
});

describe('the cost of a plan', () => {
  it('counts what begins in the stretch, and the tuned parts by themselves', () => {
    const within = new Uint8Array(2000).fill(1, 500, 600);
    const cost = costOf([floodsAt([50, 100, 500, 599.5, 600, 1539, 1540])], STRETCH, within);
    expect(cost).toMatchObject({ floods: 2, startsADay: 5, pumpMinutesADay: 50 });
  });

  it('has as the most starts of an hour those of any 60 min, counting from before the stretch', () => {
    expect(costOf([floodsAt([200, 215, 230, 245, 259.9])], STRETCH, EVERYWHERE).startsAnHourMost).toBe(5);
    expect(costOf([floodsAt([200, 220, 240, 260])], STRETCH, EVERYWHERE).startsAnHourMost).toBe(3);
    expect(costOf([floodsAt([60, 80, 99, 101])], STRETCH, EVERYWHERE).startsAnHourMost).toBe(4);
  });

  it('has as longest rest that from the end of a flood to the next, also over the start of the stretch', () => {
    expect(costOf([floodsAt([20, 150, 200])], STRETCH, EVERYWHERE).longestRestMinutes).toBe(120);
    expect(costOf([floodsAt([150, 200, 400])], STRETCH, EVERYWHERE).longestRestMinutes).toBe(190);
  });

  it('over several skies is the mean of what is used and the most of what is limited', () => {
    const cost = costOf([floodsAt([200, 500]), floodsAt([200, 215, 230, 800])], STRETCH, EVERYWHERE);
    expect(cost).toMatchObject({ startsADay: 3, startsAnHourMost: 3, longestRestMinutes: 560 });
  });

  it('over two days is that of one of them on average', () => {
    const two = { fromMinute: 0, untilMinute: 2880 };
    expect(costOf([floodsAt([10, 500, 2000, 2500])], two, new Uint8Array(3000).fill(1)).startsADay).toBe(2);
  });
});
