import { describe, expect, it } from 'vitest';
import { heldShares } from '../../../sim/plant/plant.ts';
import { tallyOf, type Tally } from '../../../sim/run/tally.ts';
import {
  air,
  daySky,
  flooded,
  HOT_DAY,
  LETTUCE,
  MINUTE,
  plantBuild,
  rested,
  START,
  steadySky,
} from '../../support/plant.ts';

const at = (minutes: number): number => START + minutes * MINUTE;
const FLOORS = { stress: 0.5, wilt: 0.2 } as const;
const FLOODS = [
  { from: 100, minutes: 20 },
  { from: 200, minutes: 10 },
  { from: 290, minutes: 30 },
];

const tallied = (fromMinutes: number, untilMinutes: number): Tally => {
  const plant = rested(plantBuild([LETTUCE, { ...LETTUCE, ageDays: 20 }]), daySky(HOT_DAY), {
    tankLitres: 2000,
  });
  const tally = tallyOf(plant, at(fromMinutes), at(untilMinutes), FLOORS);
  flooded(plant, FLOODS, 400, tally.witness);
  return tally;
};

describe('the tally of a shed', () => {
  it('has each run of the pump from its first to its last moment, also outside the span that counts', () => {
    expect(tallied(150, 250).pumpRuns).toEqual(
      FLOODS.map(({ from, minutes }) => ({ fromMillis: at(from), untilMillis: at(from + minutes) })),
    );
  });

  it.each([
    [0, 400, 60],
    [150, 250, 10],
    [110, 300, 30],
    [220, 290, 0],
  ])('counts from minute %d to %d: %d min of pumping', (from, until, minutes) => {
    expect(tallied(from, until).pumpMinutes).toBeCloseTo(minutes, 9);
  });

  it('counts the longest rest of each bench, from before the span and to its end: 70, 80 and 100 min', () => {
    // Floods end at 120, 210 and 320 and begin at 100, 200 and 290.
    expect(tallied(205, 310).longestRestMinutes[0]).toBeCloseTo(80, 6);
    expect(tallied(50, 110).longestRestMinutes[0]).toBeCloseTo(100, 6);
    expect(tallied(330, 390).longestRestMinutes[0]).toBeCloseTo(70, 6);
  });

  it('goes on counting the rest of a bench whose inlet is blocked while the other is flooded', () => {
    const plant = rested(plantBuild([LETTUCE, LETTUCE]), daySky(HOT_DAY), { tankLitres: 2000 });
    plant.state.faults.branchShares[0] = 0;
    plant.faultsChanged();
    const tally = tallyOf(plant, START, at(400), FLOORS);
    flooded(plant, FLOODS, 400, tally.witness);
    expect(tally.longestRestMinutes[0]).toBeCloseTo(400, 6);
    expect(tally.longestRestMinutes[1]).toBeCloseTo(100, 6);
  });

  it('is one run when the pump is asked off and on within a second', () => {
    const plant = rested(plantBuild([LETTUCE]), daySky(HOT_DAY));
    const tally = tallyOf(plant, START, at(60), FLOORS);
    flooded(
      plant,
      [
        { from: 10, minutes: 5 },
        { from: 15 + 0.5 / 60, minutes: 5 },
      ],
      60,
      tally.witness,
    );
    expect(tally.pumpRuns).toHaveLength(1);
  });
});

describe('a bench that dries from full under a steady sky', () => {
  const plant = rested(plantBuild([LETTUCE]), steadySky(air(34, 3, 700)));
  const tally = tallyOf(plant, START, at(300), FLOORS);
  const thetas: { readonly theta: number; readonly atMillis: number }[] = [];
  let strongest = 0;
  let dried = 0;
  plant.advance(at(300), (state, minutes) => {
    tally.witness(state, minutes);
    const [bench] = state.benches;
    const strength = bench!.salts / (bench!.drainableLitres + bench!.heldLitres);
    if (heldShares(plant)[0]! > FLOORS.wilt) strongest = Math.max(strongest, strength);
    dried = Math.max(dried, strength);
    thetas.push({ theta: heldShares(plant)[0]!, atMillis: state.atMillis });
  });

  it('is lowest at the end, at the θ it has there', () => {
    expect(tally.lowestTheta[0]).toEqual({ value: heldShares(plant)[0], atMillis: at(300) });
  });

  /** When θ comes to a floor on the straight line between the ends of the step in which it does. */
  const fallsTo = (floor: number): number => {
    const place = thetas.findIndex(({ theta }) => theta <= floor);
    const [before, after] = [thetas[place - 1]!, thetas[place]!];
    const share = (before.theta - floor) / (before.theta - after.theta);
    return before.atMillis + share * (after.atMillis - before.atMillis);
  };

  it('wilts when θ comes to 0.2 within a step, to a millisecond', () => {
    expect(Math.abs(tally.wiltedAtMillis[0]! - fallsTo(0.2))).toBeLessThanOrEqual(1);
  });

  it('is below its stress floor from the moment at which θ comes to 0.5 to the end, to 0.001 min', () => {
    const minutes = (at(300) - fallsTo(0.5)) / MINUTE;
    expect(Math.abs(tally.belowStressMinutes[0]! - minutes)).toBeLessThanOrEqual(0.001);
  });

  it('is strongest where any step above the wilt floor had it so: salts of dried roots mean nothing', () => {
    expect(tally.strongest).toEqual([strongest]);
    expect(strongest).toBeGreaterThan(1.7);
    expect(dried).toBeGreaterThan(2 * strongest);
  });

  it('never wilts nor is stressed before the span that counts', () => {
    const again = rested(plantBuild([LETTUCE]), steadySky(air(34, 3, 700)));
    const early = tallyOf(again, START, at(30), FLOORS);
    again.advance(at(300), early.witness);
    expect(early.wiltedAtMillis).toEqual([null]);
    expect(early.belowStressMinutes).toEqual([0]);
  });

  it('has its warmest water where it was warmest, and its oxygen where it was lowest', () => {
    expect(tally.warmestCelsius[0]!.value).toBeGreaterThan(34);
    expect(tally.lowestOxygen[0]!.value).toBeLessThan(7);
    expect(tally.lowestOxygen[0]!.value).toBeGreaterThan(0);
  });
});
