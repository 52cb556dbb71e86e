import { describe, expect, it } from 'vitest';
import { CENTRAL } from '../../../sim/plant/judgements.ts';
import { plantOf } from '../../../sim/run/farm-plant.ts';
import { air, MINUTE, rested, START, steadySky } from '../../support/plant.ts';
import { farmWith } from '../farm/example.ts';

describe('the plant of a farm file', () => {
  it('has the 72 m and the 300 plants of each of the 4 benches, sown at local noon', () => {
    const build = plantOf(farmWith(), CENTRAL);
    expect(build.benches.map((bench) => bench.channelMetres)).toEqual([72, 72, 72, 72]);
    expect(build.benches.map((bench) => bench.plantings[0]!.plants)).toEqual([300, 300, 300, 300]);
    expect(new Date(build.benches[0]!.plantings[0]!.sownMillis).toISOString()).toBe(
      '2026-06-26T11:00:00.000Z',
    );
  });

  it('has what comes next on a bench from the first moment of its local day on', () => {
    const next = [{ on: '2026-07-20', crop: 'basil', sown: '2026-06-28', plants: 280 }, { on: '2026-08-24' }];
    const { plantings } = plantOf(farmWith([['benches', 1, 'next'], next]), CENTRAL).benches[1]!;
    expect(plantings.map(({ fromMillis, plants }) => [fromMillis, plants])).toEqual([
      [-Infinity, 300],
      [Date.parse('2026-07-20T00:00+01:00'), 280],
      [Date.parse('2026-08-24T00:00+01:00'), 0],
    ]);
    expect(new Date(plantings[1]!.sownMillis).toISOString()).toBe('2026-06-28T11:00:00.000Z');
    expect(plantings[1]!.plantsPerSquareMetre).toBe(20);
  });

  it('is pumped the 10 L/min of each bench that bucket and stopwatch gave, though they lie at two heights', () => {
    const build = plantOf(farmWith(), CENTRAL);
    const plant = rested(build, steadySky(air(20, 2.4, 0)));
    plant.setPump(true);
    plant.advance(START + MINUTE);
    expect(plant.state.pumpedLitresPerMinute).toBeCloseTo(40, 9);
    // A rested bench lets next to nothing out in the first minute: what came in is there, less what drained.
    const standing = plant.state.benches.map((bench) => bench.drainableLitres);
    for (const litres of standing) expect(litres).toBeCloseTo(standing[0]!, 9);
  });

  it.each([0.9, 1.1])('is pumped %d times that when the flow is so doubted', (flowFactor) => {
    const plant = rested(plantOf(farmWith(), { ...CENTRAL, flowFactor }), steadySky(air(20, 2.4, 0)));
    plant.setPump(true);
    plant.advance(START + MINUTE);
    expect(plant.state.pumpedLitresPerMinute).toBeCloseTo(40 * flowFactor, 9);
  });

  it('holds 0.7 % less oxygen at 2 mS/cm than fresh water: USGS Technical Memorandum 2011.03', () => {
    const farm = farmWith([['tank', 'strengthMillisiemensPerCm'], 2]);
    const build = plantOf(farm, CENTRAL);
    const oxygen = (usualMillisiemensPerCm: number): number =>
      rested({ ...build, usualMillisiemensPerCm }, steadySky(air(20, 2.4, 0))).state.benches[0]!
        .oxygenMilligramsPerLitre;
    expect(build.usualMillisiemensPerCm).toBe(2);
    expect(oxygen(2) / oxygen(0)).toBeCloseTo(1 - 0.007, 3);
  });

  it('has the tank of the file: 600 L to the brim, dry at 60 L, filled by hand or by its valve', () => {
    expect(plantOf(farmWith(), CENTRAL).tank).toEqual({
      brimLitres: 600,
      dryLitres: 60,
      topUp: { kind: 'by-hand' },
      topUpMillisiemensPerCm: 0.3,
    });
    const valve = farmWith([['tank', 'topUp'], { floatValveAtLitres: 300, litresPerMinute: 8 }]);
    expect(plantOf(valve, CENTRAL).tank.topUp).toEqual({
      kind: 'float-valve',
      closesAtLitres: 300,
      litresPerMinute: 8,
    });
  });
});
