import { describe, expect, it } from 'vitest';
import { physicsWarnings } from '../../../src/farm/physics-check.ts';
import { farmWithin, hasPlants, standingOn } from '../../../src/farm/standing.ts';
import { farmWith, placesOf, problemsWith, type Change } from './example.ts';

const BASIL = { on: '2026-07-20', crop: 'basil', sown: '2026-06-28', plants: 280 };
const CLEARED = { on: '2026-08-24' };
const nextOf = (...next: readonly object[]): Change => [['benches', 1, 'next'], next];

/** One entry at fault: where, what was found, and what the words must say. */
const refuses = (next: readonly object[], place: string, found: string, words: RegExp): void => {
  const problems = problemsWith(nextOf(...next));
  expect(placesOf(problems)).toEqual([`benches.1.next.${place}`]);
  expect(problems[0]!.found).toBe(found);
  expect(`${problems[0]!.allowed}. ${problems[0]!.problem} ${problems[0]!.advice ?? ''}`).toMatch(words);
};

describe('what comes next on a bench', () => {
  const farm = farmWith(nextOf(BASIL, CLEARED));
  const bench = farm.benches[1]!;

  it('stands from its day on: butterhead to 19 July, basil from the 20th, nothing from 24 August', () => {
    expect(standingOn(bench, '2026-07-19')).toMatchObject({ crop: 'butterhead', plants: 300 });
    expect(standingOn(bench, '2026-07-20')).toMatchObject({
      crop: 'basil',
      plants: 280,
      sown: '2026-06-28',
      startedInPlace: false,
      traits: { harvestDays: 50 },
    });
    expect(standingOn(bench, '2026-08-23').plants).toBe(280);
    expect(standingOn(bench, '2027-01-01').plants).toBe(0);
  });

  it('is nothing unless told, and an empty list is nothing too', () => {
    expect(farmWith().benches[1]!.next).toEqual([]);
    expect(farmWith(nextOf()).benches[1]!.next).toEqual([]);
  });

  it('may be seedlings that are sown in place on the very day', () => {
    const sown = { on: '2026-07-20', crop: 'basil', sown: '2026-07-20', plants: 280, startedInPlace: true };
    expect(farmWith(nextOf(sown)).benches[1]!.next[0]).toMatchObject({ startedInPlace: true });
  });

  it('is cut to some days: what stands on the first, and no change after the last', () => {
    const within = (first: string, last: string): readonly unknown[] => {
      const [, { crop, plants, next } = bench] = farmWithin(farm, first, last).benches;
      return [crop, plants, next.map(({ on }) => on)];
    };
    expect(within('2026-07-18', '2026-07-19')).toEqual(['butterhead', 300, []]);
    expect(within('2026-07-18', '2026-07-20')).toEqual(['butterhead', 300, ['2026-07-20']]);
    expect(within('2026-07-20', '2026-09-01')).toEqual(['basil', 280, ['2026-08-24']]);
    expect(hasPlants(farmWithin(farm, '2026-08-23', '2026-08-30').benches[1]!)).toBe(true);
    expect(hasPlants(farmWithin(farm, '2026-08-24', '2026-08-30').benches[1]!)).toBe(false);
  });
});

describe('what cannot come next', () => {
  it.each<[string, readonly object[], string, string, RegExp]>([
    ['a day that does not rise', [BASIL, { on: '2026-07-20' }], '1.on', '2026-07-20', /after 2026-07-20/],
    [
      'a day of the first sowing',
      [{ on: '2026-06-04' }],
      '0.on',
      '2026-06-04',
      /after 2026-06-04, the sowing of what stands there first/,
    ],
    [
      'a sowing after its day',
      [{ ...BASIL, sown: '2026-07-21' }],
      '0.sown',
      '2026-07-21',
      /up to 2026-07-20.*before they are sown/,
    ],
    ['a crop that nobody knows', [{ ...BASIL, crop: 'bazil' }], '0.crop', '“bazil”', /Perhaps basil/],
    ['no day of the calendar', [{ on: '2026-06-31' }], '0.on', '"2026-06-31"', /calendar date/],
    ['a half plant', [{ ...BASIL, plants: 2.5 }], '0.plants', '2.5', /whole/],
    ['a number of plants left out', [{ ...BASIL, plants: undefined }], '0.plants', 'nothing', /missing/],
    ['a key of the bench itself', [{ ...BASIL, channels: 3 }], '0.channels', 'the key "channels"', /known/],
    ['a slip of a key', [{ ...BASIL, sow: 1 }], '0.sow', 'the key "sow"', /sown/],
  ])('%s', (_, next, place, found, words) => {
    refuses(next, place, found, words);
  });

  it('asks for crop and sowing where only plants are told', () => {
    expect(placesOf(problemsWith(nextOf({ on: '2026-07-20', plants: 300 })))).toEqual([
      'benches.1.next.0.crop',
      'benches.1.next.0.sown',
    ]);
  });

  it('takes no list of 25, and no word in place of one', () => {
    const long = Array.from({ length: 25 }, (_, place) => ({
      on: `2027-01-${String(place + 1).padStart(2, '0')}`,
    }));
    expect(placesOf(problemsWith(nextOf(...long)))).toEqual(['benches.1.next']);
    expect(placesOf(problemsWith([['benches', 1, 'next'], 'basil']))).toEqual(['benches.1.next']);
  });

  it('has a bench that stands empty first planted on any day', () => {
    expect(problemsWith([['benches', 1, 'plants'], 0], nextOf({ ...BASIL, on: '2026-07-01' }))).toEqual([]);
  });
});

describe('warnings of what comes next', () => {
  const warned = (today: string, ...changes: readonly Change[]): readonly string[] =>
    physicsWarnings(farmWith(...changes), today).map(({ path, says }) => `${path.join('.')} ${says}`);

  it('has nothing to say of a change in time', () => {
    expect(warned('2026-07-14', nextOf(BASIL, CLEARED))).toEqual([]);
  });

  it('warns of 20 plants in each metre, at the entry', () => {
    const [only, ...others] = warned('2026-07-14', nextOf({ ...BASIL, plants: 1440 }));
    expect(only).toMatch(/^benches\.1\.next\.0\.plants Bench 2: 20\.0 plants in each metre/);
    expect(others).toEqual([]);
  });

  it('warns of a sowing in the year before, and of a crop that is left standing for months', () => {
    const wrongYear = warned('2026-07-14', nextOf({ ...BASIL, sown: '2025-06-28' }));
    expect(wrongYear).toEqual([expect.stringMatching(/^benches\.1\.next\.0\.sown .*387 days old by then/)]);
    const late = warned('2026-07-14', nextOf({ ...BASIL, on: '2026-10-01', sown: '2026-09-10' }));
    expect(late).toEqual([expect.stringMatching(/^benches\.1\.next\.0\.on .*119 days old when this comes/)]);
  });

  it('takes the age of what stands there on the day, and of no plants none', () => {
    // The first butterhead would be 108 days old on 20 September.
    expect(warned('2026-09-20', nextOf(BASIL)).filter((line) => line.startsWith('benches.1'))).toEqual([
      expect.stringMatching(/^benches\.1\.next\.0\.sown Bench 2 is 84 days old; basil/),
    ]);
    expect(
      warned('2026-09-20', nextOf(BASIL, CLEARED)).filter((line) => line.startsWith('benches.1')),
    ).toEqual([]);
  });
});
