import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { factsOn, factsWithoutDate, type BenchFacts } from '../../../src/estimate/bench-facts.ts';
import { exampleFarm, farmWith } from '../../support/farm.ts';
import { exampleFile } from '../farm/example.ts';

/** Share of its water that a bench drinks for each millimetre of reference uptake. */
const thirst = ({ litresPerMillimetre, capacityLitres }: BenchFacts): number =>
  litresPerMillimetre / capacityLitres;

const dateAfter = (date: string, days: number): string =>
  new Date(Date.parse(date) + days * 86_400_000).toISOString().slice(0, 10);

describe('what is believed of a bench on a day', () => {
  it('comes in the order of the farm file, with the age in days from sowing', () => {
    expect(factsOn(exampleFarm, '2026-07-14').map(({ name, ageDays }) => [name, ageDays])).toEqual([
      ['Bench 1', 18],
      ['Bench 2', 40],
      ['Bench 3', 36],
      ['Bench 4', 30],
    ]);
  });

  it('a bench sown tomorrow is 0 days old', () => {
    expect(factsOn(farmWith([['benches', 0, 'sown'], '2026-07-15']), '2026-07-14')[0]!.ageDays).toBe(0);
  });

  // 20 mL cup + 5 mL film + 2.5 mL per gram of root; half of 40 g at 41 days.
  it('300 butterheads of 41 days hold 300 × (25 + 2.5 × 20) mL = 22.5 L', () => {
    const farm = farmWith([['benches', 1, 'sown'], '2026-06-03']);
    expect(factsOn(farm, '2026-07-14')[1]!.capacityLitres).toBeCloseTo(22.5, 6);
  });

  // FAO-56 eq. 97 with table 17: Kcb = 0.15 + 0.75 × (1 − e^(−0.7 × 3.2)); 300 plants on 300/16 m².
  it('the same 300 butterheads drink 18.75 m² × 0.82 L for each millimetre', () => {
    const farm = farmWith([['benches', 1, 'sown'], '2026-06-03']);
    const expected = (300 / 16) * (0.15 + 0.75 * (1 - Math.exp(-0.7 * 3.2)));
    expect(factsOn(farm, '2026-07-14')[1]!.litresPerMillimetre).toBeCloseTo(expected, 6);
  });

  it('an empty bench is not planted, and divides by no zero', () => {
    const [facts] = factsOn(farmWith([['benches', 0, 'plants'], 0]), '2026-07-14');
    expect(facts!.planted).toBe(false);
    expect(facts!.capacityLitres).toBeGreaterThan(0);
    expect(facts!.litresPerMillimetre).toBe(0);
  });
});

describe('over a replanting', () => {
  const seedlings = { on: '2026-07-20', crop: 'basil', sown: '2026-07-14', plants: 280 };
  const exampleBench = (exampleFile() as { readonly benches: readonly object[] }).benches[1]!;
  const replanted = farmWith([
    ['benches', 1, 'next'],
    [seedlings, { on: '2026-08-24' }],
  ]);
  const bench = (date: string): BenchFacts => factsOn(replanted, date)[1]!;
  /** The same dates with only those plants in the file. */
  const alone = (date: string, change: object): BenchFacts =>
    factsOn(farmWith([['benches', 1], { ...exampleBench, ...change }]), date)[1]!;

  it('goes by the butterhead up to the day of the change, and by the basil from the day after', () => {
    const { crop, sown, plants } = seedlings;
    expect(bench('2026-07-19')).toEqual(alone('2026-07-19', {}));
    expect(bench('2026-07-21')).toEqual(alone('2026-07-21', { crop, sown, plants }));
    expect(bench('2026-07-21').ageDays).toBe(7);
  });

  it('goes on the day itself by those that dry faster, whether they go or come', () => {
    expect(bench('2026-07-20')).toEqual(alone('2026-07-20', {}));
    const coming = { on: '2026-07-20', crop: 'basil', sown: '2026-06-10', plants: 300 };
    const first = { ...exampleBench, sown: '2026-07-10', next: [coming] };
    expect(factsOn(farmWith([['benches', 1], first]), '2026-07-20')[1]!.ageDays).toBe(40);
  });

  it('goes by plants still on the day that clears the bench, and by none after it', () => {
    expect(bench('2026-08-24').planted).toBe(true);
    expect(bench('2026-08-25')).toMatchObject({ planted: false, litresPerMillimetre: 0 });
  });

  it('takes without a date the thirstiest of all crops in the file, also where the bench stands empty first', () => {
    const empty = farmWith([['benches', 1, 'plants'], 0], [['benches', 1, 'next'], [seedlings]]);
    expect(factsWithoutDate(empty)[1]!.planted).toBe(true);
    const both = thirst(factsWithoutDate(replanted)[1]!);
    expect(both).toBe(
      Math.max(thirst(factsWithoutDate(empty)[1]!), thirst(factsWithoutDate(farmWith())[1]!)),
    );
  });
});

describe('when no date is known', () => {
  it('no age up to harvest dries a bench faster than the one assumed', () => {
    const assumed = factsWithoutDate(exampleFarm);
    fc.assert(
      fc.property(fc.nat({ max: 3 }), fc.nat({ max: 55 }), (place, age) => {
        const bench = exampleFarm.benches[place]!;
        const days = Math.min(age, bench.traits.harvestDays);
        const real = factsOn(exampleFarm, dateAfter(bench.sown, days))[place]!;
        expect(thirst(real)).toBeLessThanOrEqual(thirst(assumed[place]!));
      }),
      { numRuns: 300 },
    );
  });

  // Most at risk is the bench whose canopy has just closed, not the oldest.
  it('the assumed age of a butterhead lies before its roots are half grown at 41 days, and after 28', () => {
    const { ageDays } = factsWithoutDate(exampleFarm)[0]!;
    expect(ageDays).toBeLessThan(41);
    expect(ageDays).toBeGreaterThan(28);
  });

  it('a bench without plants stays without plants', () => {
    expect(factsWithoutDate(farmWith([['benches', 2, 'plants'], 0]))[2]!.planted).toBe(false);
  });
});
