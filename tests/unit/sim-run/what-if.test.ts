import { describe, expect, it } from 'vitest';
import { heldShares, type Plant } from '../../../sim/plant/plant.ts';
import { tallyOf, type PumpRun } from '../../../sim/run/tally.ts';
import { TIME_LEFT_MINUTES_MAX, worstMiss, worstTimeLeft } from '../../../sim/run/what-if.ts';
import {
  air,
  daySky,
  evenFloods,
  flooded,
  HOT_DAY,
  LETTUCE,
  MINUTE,
  plantBuild,
  rested,
  START,
  steadySky,
  type BenchFacts,
  type Flood,
  type Weather,
} from '../../support/plant.ts';

const WILT = 0.2;
const FLOORS = { stress: 0.5, wilt: WILT } as const;
const at = (minutes: number): number => START + minutes * MINUTE;

interface Day {
  /** The plant just before each flood. */
  readonly beforeStarts: readonly Plant[];
  readonly runs: readonly PumpRun[];
  /** The plant every 5 min. */
  readonly every5: readonly Plant[];
}

const UNTIL = 18 * 60;

const dayOf = (floods: readonly Flood[], benches: readonly BenchFacts[] = [LETTUCE]): Day => {
  const plant = rested(plantBuild(benches), daySky(HOT_DAY), { tankLitres: 2000 });
  const tally = tallyOf(plant, START, at(UNTIL), FLOORS);
  const beforeStarts: Plant[] = [];
  const every5: Plant[] = [];
  const marks = new Set(Array.from({ length: UNTIL / 5 }, (_, place) => at(5 * place)));
  for (const flood of floods) {
    flooded(plant, [], flood.from, (state, minutes) => {
      tally.witness(state, minutes);
      if (marks.has(state.atMillis)) every5.push(plant.forked());
    });
    beforeStarts.push(plant.forked());
    flooded(plant, [flood], flood.from + flood.minutes, (state, minutes) => {
      tally.witness(state, minutes);
      if (marks.has(state.atMillis)) every5.push(plant.forked());
    });
  }
  return { beforeStarts, runs: tally.pumpRuns, every5 };
};

/** Minutes from a failure now to the wilt floor of one bench, by looking every minute. */
const minutesLeft = (now: Plant, place: number): number => {
  const plant = now.forked();
  plant.setPump(false);
  const from = plant.state.atMillis;
  for (let minutes = 1; minutes <= TIME_LEFT_MINUTES_MAX; minutes += 1) {
    plant.advance(from + minutes * MINUTE);
    if (heldShares(plant)[place]! <= WILT) return minutes;
  }
  return TIME_LEFT_MINUTES_MAX;
};

describe('the worst time left, on the hot day with a flood every 45 min from 6 to 18 h', () => {
  const floods = evenFloods(24, 45, 20).filter((flood) => flood.from >= 6 * 60);
  const benches = [LETTUCE, { ...LETTUCE, ageDays: 25 }];
  const { beforeStarts, every5 } = dayOf(floods, benches);
  const found = worstTimeLeft(beforeStarts, WILT);

  it.each([0, 1])(
    'is on bench %d that of the worst of all failures, tried every 5 min, within 1 min',
    (place) => {
      const shortest = Math.min(...[...every5, ...beforeStarts].map((now) => minutesLeft(now, place)));
      expect(shortest).toBeLessThan(6 * 60);
      // The search looks every 5 min with straight lines between, this every minute and rounds up.
      expect(Math.abs(found[place]!.minutes - (shortest - 0.5))).toBeLessThanOrEqual(1);
    },
  );

  it('is at the start of a flood, and any failure just after one leaves more', () => {
    const starts = floods.map((flood) => at(flood.from));
    for (const { failedAtMillis } of found) expect(starts).toContain(failedAtMillis);
    const worst = beforeStarts.find(({ state }) => state.atMillis === found[0]!.failedAtMillis)!;
    const later = worst.forked();
    later.setPump(true);
    later.advance(worst.state.atMillis + 20 * MINUTE);
    expect(minutesLeft(later, 0)).toBeGreaterThan(found[0]!.minutes + 10);
  });

  it('is shorter for the bench of 40 days than for that of 25', () => {
    expect(found[0]!.minutes).toBeLessThan(found[1]!.minutes);
  });

  it('leaves the plants it was given as they were', () => {
    const before = structuredClone(beforeStarts[3]!.state);
    worstTimeLeft(beforeStarts, WILT);
    expect(beforeStarts[3]!.state).toEqual(before);
  });
});

describe('the time left', () => {
  const resting = (theta: number, sky: Weather): Plant => {
    const plant = rested(plantBuild([LETTUCE]), sky);
    plant.state.benches[0]!.heldLitres *= theta;
    return plant;
  };

  it('is 24 h when nothing is drunk, and 0 min when the bench is at its wilt floor already', () => {
    const dark = steadySky(air(20, 2.4, 0));
    expect(worstTimeLeft([resting(1, dark)], WILT)).toEqual([{ minutes: 1440, failedAtMillis: START }]);
    expect(worstTimeLeft([resting(0.19, dark)], WILT)[0]!.minutes).toBe(0);
  });

  it('is that of the closed form under a steady sky: (1 − θc)·cap/Ep + θc·cap/Ep · ln(θc/0.2)', () => {
    const plant = resting(1, steadySky(air(34, 3, 700)));
    const [today] = plant.today();
    const { litresPerMinutePerWatt: byWatt, litresPerMinutePerKilopascal: byKilopascal } = today!.canopy;
    const saturated = 0.6108 * Math.exp((17.27 * 34) / (34 + 237.3));
    const uptake = byWatt * 700 + byKilopascal * (saturated - 3) * (0.35 + (0.65 * 700) / 750);
    const cap = today!.capacityLitres;
    const minutes = (0.5 * cap) / uptake + ((0.5 * cap) / uptake) * Math.log(0.5 / 0.2);
    // Straight lines over 5 min of a curve that bends by 1 % of itself a minute err by less than 0.1 min.
    expect(Math.abs(worstTimeLeft([plant], WILT)[0]!.minutes - minutes)).toBeLessThan(0.1);
  });

  it('is the same for a plant whose pump was running when it failed', () => {
    const sky = steadySky(air(34, 3, 700));
    const running = resting(1, sky);
    running.setPump(true);
    const [found] = worstTimeLeft([running], WILT);
    const [rested] = worstTimeLeft([resting(1, sky)], WILT);
    expect(found!.failedAtMillis).toBe(rested!.failedAtMillis);
    expect(found!.minutes).toBeCloseTo(rested!.minutes, 9);
  });

  it('of no starts is nothing', () => {
    expect(worstTimeLeft([], WILT)).toEqual([]);
  });
});

describe('the trial of the model: 300 plants of 40 days, 34 °C, 900 W/m², floods of 20 min', () => {
  it.each([
    [20, 0.88, 0.56],
    [30, 0.82, 0.38],
  ])('rests of %d min keep θ at %d, with one flood missed at %d, each within 0.05', (rest, kept, missed) => {
    const floods = evenFloods(Math.floor(UNTIL / (20 + rest)), 20 + rest, 20);
    const day = dayOf(floods);
    const lowest = Math.min(...day.every5.map((now) => heldShares(now)[0]!));
    expect(Math.abs(lowest - kept)).toBeLessThan(0.05);
    expect(Math.abs(worstMiss(day.beforeStarts, day.runs)[0]!.theta - missed)).toBeLessThan(0.05);
  });
});

describe('the worst miss of a day of 14 floods with one longer rest, from 11:40 to 12:20', () => {
  // 20 to 40 min apart: without that of 11:20 the bench goes from 11:00 to 12:20, without another for less.
  const floods = [120, 240, 360, 400, 440, 480, 520, 560, 600, 640, 680, 740, 770, 810].map((from) => ({
    from,
    minutes: 20,
  }));
  const { beforeStarts, runs } = dayOf(floods);
  const [found] = worstMiss(beforeStarts, runs);

  it('is the flood before the long rest, at 11:20', () => {
    expect(found!.missedAtMillis).toBe(at(680));
  });

  it('goes as low as a day without that flood does up to 10 min after the next, to 1e-9', () => {
    const plant = rested(plantBuild([LETTUCE]), daySky(HOT_DAY), { tankLitres: 2000 });
    let lowest = 1;
    const rest = floods.filter((flood) => flood.from !== 680 && flood.from <= 740);
    flooded(plant, rest, 740 + 30, ({ atMillis }) => {
      if (atMillis >= at(680)) lowest = Math.min(lowest, heldShares(plant)[0]!);
    });
    expect(Math.abs(found!.theta - lowest)).toBeLessThanOrEqual(1e-9);
  });

  it('is lower than the lowest θ of the day as it was', () => {
    const [worst] = worstMiss(beforeStarts, runs);
    const plant = rested(plantBuild([LETTUCE]), daySky(HOT_DAY), { tankLitres: 2000 });
    let lowest = 1;
    flooded(plant, floods, 14 * 60, () => {
      lowest = Math.min(lowest, heldShares(plant)[0]!);
    });
    expect(worst!.theta).toBeLessThan(lowest - 0.1);
  });

  it('does not count a sip of 1 min as a flood, neither as the missed one nor as the next', () => {
    const sips = [
      ...floods.filter(({ from }) => from < 715),
      { from: 715, minutes: 1 },
      ...floods.filter(({ from }) => from > 715),
    ];
    const day = dayOf(sips);
    const given = day.runs.filter(({ fromMillis }) => fromMillis !== at(715));
    const [withSip] = worstMiss(day.beforeStarts, given);
    expect(withSip!.missedAtMillis).toBe(at(680));
    expect(Math.abs(withSip!.theta - found!.theta)).toBeLessThanOrEqual(1e-9);
    const sip = day.beforeStarts.filter(({ state }) => state.atMillis === at(715));
    expect(sip).toHaveLength(1);
    expect(worstMiss(sip, given)).toEqual([{ theta: Infinity, missedAtMillis: 0 }]);
  });

  it('leaves the plants it was given as they were, before their floods', () => {
    const before = structuredClone(beforeStarts[5]!.state);
    worstMiss(beforeStarts, runs);
    expect(beforeStarts[5]!.state).toEqual(before);
    expect(before.atMillis).toBe(runs[5]!.fromMillis);
  });

  it('says nothing of the last flood, after which nobody knows when the next would come', () => {
    const [only] = worstMiss(beforeStarts.slice(13), runs);
    expect(only).toEqual({ theta: Infinity, missedAtMillis: 0 });
  });
});
