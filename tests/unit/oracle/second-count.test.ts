import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { secondCount } from '../../../sim/oracle/second-count.ts';
import { anyShed, DAY_MINUTES, daySky, flooded, LETTUCE, plantBuild, rested } from '../../support/plant.ts';

describe('water counted a second time, by other lines', () => {
  // The trapezoid over steps of at most a minute misses the kink at the stress floor by its second order.
  it('agrees with what leaves and cups lost to 2e-3, and with what it moved to 1e-9, over a day in any shed', () => {
    fc.assert(
      fc.property(anyShed, ({ benches, judgements, day, floods }) => {
        const sky = daySky(day);
        const build = plantBuild(benches, {}, judgements);
        const plant = rested(build, sky, { tankLitres: 20_000 });
        const before = plant.state.benches.map(({ heldLitres }) => heldLitres);
        const count = secondCount(build, sky, () => plant.today());
        let returned = 0;
        flooded(plant, floods, DAY_MINUTES, (state, minutes) => {
          count.look(state, minutes);
          returned += state.returnLitresPerMinute * minutes;
        });
        let gone = 0;
        plant.state.benches.forEach(({ drunkLitres, evaporatedLitres }, place) => {
          gone += drunkLitres + evaporatedLitres;
          expect(Math.abs(count.drunk()[place]! - drunkLitres)).toBeLessThan(
            2e-3 * Math.max(0.5, drunkLitres),
          );
          expect(Math.abs(count.evaporated()[place]! - evaporatedLitres)).toBeLessThan(
            2e-3 * Math.max(0.5, evaporatedLitres),
          );
        });
        const flooding = count.flooded().reduce((sum, litres) => sum + litres, 0);
        const stands = plant.state.benches.reduce(
          (sum, bench, place) => sum + bench.drainableLitres + bench.heldLitres - before[place]!,
          0,
        );
        expect(Math.abs(flooding - returned - gone - stands)).toBeLessThan(1e-9 * Math.max(1, flooding));
      }),
      { numRuns: 60 },
    );
  });

  it('sees a plant that drinks a twentieth more than its weather makes it', () => {
    const sky = daySky({ minCelsius: 20, maxCelsius: 34, vapourKilopascals: 2, sunWattsMax: 900 });
    const build = plantBuild([LETTUCE]);
    const plant = rested(build, sky, { tankLitres: 20_000 });
    const other = {
      at: (epochMillis: number) => ({
        ...sky.at(epochMillis),
        sunWattsPerSquareMetre: 0.95 * sky.at(epochMillis).sunWattsPerSquareMetre,
      }),
    };
    const count = secondCount(build, other, () => plant.today());
    flooded(plant, [{ from: 300, minutes: 20 }], DAY_MINUTES, count.look);
    const share = count.drunk()[0]! / plant.state.benches[0]!.drunkLitres;
    expect(share).toBeLessThan(0.99);
  });
});
