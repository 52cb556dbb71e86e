import { describe, expect, it } from 'vitest';
import { parseFarm, type FarmProblem } from '../../../src/farm/parse.ts';
import { changed, exampleFile, farmWith, placesOf, problemsWith, type Change } from './example.ts';

/** One change, one problem: where, what was found, and what the words must say. */
const refuses = (change: Change, place: string, found: string, words: RegExp): void => {
  const problems = problemsWith(change);
  expect(placesOf(problems)).toEqual([place]);
  const [problem] = problems as [FarmProblem];
  expect(problem.found).toBe(found);
  expect(`${problem.allowed}. ${problem.problem} ${problem.advice ?? ''}`).toMatch(words);
};

describe('parseFarm', () => {
  it('accepts the example: 4 benches with the traits of their crops, 4 day parts, defaults filled in', () => {
    const farm = farmWith();
    expect(farm.benches.map(({ crop, traits }) => [crop, traits.harvestDays])).toEqual([
      ['butterhead', 55],
      ['butterhead', 55],
      ['basil', 50],
      ['pak-choi', 45],
    ]);
    expect(farm.dayPlan.map(({ name, pace }) => [name, pace])).toEqual([
      ['early morning', { kind: 'number', floods: 2 }],
      ['heat of the day', { kind: 'rest', restMinutes: 25 }],
      ['late afternoon', { kind: 'number', floods: 4 }],
      ['night', { kind: 'number', floods: 3 }],
    ]);
    expect(farm.dayPlan[3]!.from).toEqual({ kind: 'sun', event: 'sunset', offsetMinutes: 30 });
    expect(farm.evidence.leakSensor).toBe(false);
    expect(farmWith([['floors'], undefined]).floors).toEqual({ stress: 0.5, wilt: 0.2 });
  });

  it('a crop described in the file wins over the built-in one of the same name', () => {
    const own = { leafSquareMetresMax: 0.2, rootGramsMax: 20, halfGrownDays: 30, growthPerDay: 0.2 };
    const farm = farmWith([['crops'], { basil: { ...own, plantsPerSquareMetre: 25, harvestDays: 42 } }]);
    expect(farm.benches[2]!.traits.harvestDays).toBe(42);
  });

  it('names the key that was meant by lenghtMetres', () => {
    const problems = problemsWith([['benches', 1, 'lenghtMetres'], 6]);
    expect(placesOf(problems)).toEqual(['benches.1.lenghtMetres']);
    expect(problems[0]).toMatchObject({ pointsAt: 'key', advice: 'Perhaps lengthMetres was meant.' });
  });

  it('suggests nothing for a key that resembles none', () => {
    const [problem] = problemsWith([['pump', 'colour'], 'blue']);
    expect(problem).toMatchObject({ path: ['pump', 'colour'], found: 'the key "colour"' });
    expect(problem).not.toHaveProperty('advice');
  });

  it.each([
    ['a line feed', 'Rib\neira', '"Rib\\neira"'],
    ['an escape', 'Rib\u001B[31meira', '"Rib\\u001b[31meira"'],
    ['a line separator', 'Rib\u2028eira', '"Rib\u2028eira"'],
  ])('refuses %s in a name, and says what may stand there', (_, text, found) => {
    refuses([['farm'], text], 'farm', found, /^a name on one line, without line breaks/);
    refuses([['benches', 1, 'name'], text], 'benches.1.name', found, /without .* other control characters/);
    refuses([['herald', 'people', 0, 'name'], text], 'herald.people.0.name', found, /^a name on one line/);
  });

  it.each([
    ['a tab', 'my\tcrop', '"my\\tcrop"', /^a name on one line, without line breaks/],
    ['nothing', '', '""', /^a text of 1 to 40 letters\. The text is too short/],
    [
      '41 letters',
      'c'.repeat(41),
      `"${'c'.repeat(41)}"`,
      /^a text of 1 to 40 letters\. The text is too long/,
    ],
  ])('refuses %s as the name of a crop, and points at the name', (_, name, found, words) => {
    const own = { leafSquareMetresMax: 0.2, rootGramsMax: 20, halfGrownDays: 30, growthPerDay: 0.2 };
    const change: Change = [['crops'], { [name]: { ...own, plantsPerSquareMetre: 25, harvestDays: 42 } }];
    refuses(change, `crops.${name}`, `the key ${found}`, words);
    expect(problemsWith(change)[0]).toMatchObject({ pointsAt: 'key' });
  });

  it('takes names of many tongues, and trims what stands round them', () => {
    expect(farmWith([['farm'], ' Ribeira – Quinta nº 2, 温室\n']).farm).toBe('Ribeira – Quinta nº 2, 温室');
  });

  it('says what was found and what is allowed for single values', () => {
    refuses(
      [['benches', 0, 'slopePercent'], 200],
      'benches.0.slopePercent',
      '200',
      /^0\.1 to 15\. .*too large/,
    );
    refuses(
      [['dayPlan', 0, 'floods'], 2.5],
      'dayPlan.0.floods',
      '2.5',
      /a whole number, 1 to 96\. .*must be whole/,
    );
    refuses([['pump', 'watts'], '250 W'], 'pump.watts', '"250 W"', /Write 250 alone/);
    refuses([['pump', 'headMetresMax'], '1,5'], 'pump.headMetresMax', '"1,5"', /Write 1\.5, with a point/);
    refuses([['pump', 'watts'], null], 'pump.watts', 'an empty value', /1 to 5000\. This key has no value/);
    refuses([['pump', 'watts'], undefined], 'pump.watts', 'nothing', /This key is missing/);
    refuses([['hotDay', 'maxCelsius'], NaN], 'hotDay.maxCelsius', 'not a number (NaN)', /5 to 55/);
    refuses([['hotDay', 'maxCelsius'], Infinity], 'hotDay.maxCelsius', 'Infinity', /5 to 55/);
    refuses(
      [['sensors', 'humidity'], 'yes'],
      'sensors.humidity',
      '"yes"',
      /true or false\. .*without quotes/,
    );
    refuses([['evidence', 'returnFlow'], 'metre'], 'evidence.returnFlow', '"metre"', /switch, meter or none/);
    refuses([['place', 'timeZone'], 'Lisbon'], 'place.timeZone', '"Lisbon"', /IANA time zone/);
    refuses([['benches', 0, 'name'], ''], 'benches.0.name', '""', /1 to 40 letters\. The text is too short/);
    refuses([['benches', 0, 'sown'], '2026-06-31'], 'benches.0.sown', '"2026-06-31"', /a calendar date/);
    refuses([['benches', 0, 'sown'], 20260605], 'benches.0.sown', '20260605', /a calendar date/);
    refuses(
      [['benches'], []],
      'benches',
      'an empty list',
      /a list of 1 to 64 entries\. The list is too short/,
    );
    refuses([['outsideWatcher'], 'somebody'], 'outsideWatcher', '"somebody"', /nobody or a block with who/);
  });

  it('judges a block in place of a word as that block', () => {
    const problems = problemsWith([['tank', 'topUp'], { floatValveAtLitres: 500, litresPerMinuts: 3 }]);
    expect(placesOf(problems)).toEqual(['tank.topUp.litresPerMinute', 'tank.topUp.litresPerMinuts']);
    expect(problems[1]!.advice).toBe('Perhaps litresPerMinute was meant.');
  });

  it('guesses the unit of a number that is out of range', () => {
    const advice = (path: readonly (string | number)[], value: number): string | undefined =>
      problemsWith([path, value])[0]?.advice;
    expect(advice(['benches', 0, 'innerDiameterMillimetres'], 0.075)).toBe(
      'If 0.075 is in metres, write 75.',
    );
    expect(advice(['benches', 0, 'lengthMetres'], 6000)).toBe('If 6000 is in millimetres, write 6.');
    expect(advice(['dayPlan', 0, 'floodMinutes'], 1200)).toBe('If 1200 is in seconds, write 20.');
    expect(advice(['hotDay', 'maxCelsius'], 97)).toBe('If 97 is in degrees Fahrenheit, write 36.1.');
    expect(advice(['tank', 'strengthMillisiemensPerCm'], 1600)).toBe(
      'If 1600 is in microsiemens per cm, write 1.6.',
    );
  });

  it('refuses a band of strength that the usual strength is not inside, and one in microsiemens', () => {
    const band = (leastMillisiemensPerCm: number, mostMillisiemensPerCm: number): Change => [
      ['tank', 'strengthBand'],
      { leastMillisiemensPerCm, mostMillisiemensPerCm },
    ];
    const inside = 'tank.strengthBand.leastMillisiemensPerCm';
    expect(problemsWith(band(1.2, 2.1))).toEqual([]);
    refuses(band(1.6, 2.1), inside, '1.6', /below 1\.6, which is tank\.strengthMillisiemensPerCm/);
    refuses(
      band(1.2, 1.5),
      'tank.strengthMillisiemensPerCm',
      '1.6',
      /below 1\.5, which is tank\.strengthBand/,
    );
    expect(problemsWith(band(1200, 2.1))[0]?.advice).toBe('If 1200 is in microsiemens per cm, write 1.2.');
  });

  it('advises two digits for the hour of 8:00', () => {
    refuses([['dayPlan', 1, 'from'], '8:00'], 'dayPlan.1.from', '"8:00"', /Write 08:00\./);
  });

  it('refuses a crop that is not known, also one named like a thing every object has', () => {
    refuses([['benches', 2, 'crop'], 'basill'], 'benches.2.crop', '“basill”', /Perhaps basil was meant/);
    for (const crop of ['constructor', 'toString', '__proto__']) {
      expect(placesOf(problemsWith([['benches', 2, 'crop'], crop]))).toEqual(['benches.2.crop']);
    }
  });

  it('refuses a second bench or part of the same name, whatever the letter case', () => {
    refuses([['benches', 3, 'name'], 'BENCH 1'], 'benches.3.name', '“BENCH 1”', /Number 1 of this list/);
    refuses([['dayPlan', 3, 'part'], 'early morning'], 'dayPlan.3.part', '“early morning”', /Number 1/);
  });

  it('wants exactly one of floods and restMinutes', () => {
    refuses(
      [['dayPlan', 0, 'restMinutes'], 25],
      'dayPlan.0.restMinutes',
      'floods and restMinutes',
      /one of the two/,
    );
    refuses(
      [['dayPlan', 0, 'floods'], undefined],
      'dayPlan.0',
      'neither floods nor restMinutes',
      /how often/,
    );
  });

  it('a pace that cannot be read is told once, not also as missing', () => {
    expect(placesOf(problemsWith([['dayPlan', 0, 'floods'], 0]))).toEqual(['dayPlan.0.floods']);
  });

  it('values that must stand in order', () => {
    refuses([['floors', 'wilt'], 0.5], 'floors.wilt', '0.5', /below 0\.5, which is floors\.stress/);
    refuses(
      [['bounds', 'restMinutesByDay', 'shortest'], 75],
      'bounds.restMinutesByDay.shortest',
      '75',
      /below 75/,
    );
    refuses(
      [['hotDay', 'minCelsius'], 36],
      'hotDay.minCelsius',
      '36',
      /below 36, which is hotDay\.maxCelsius/,
    );
    refuses([['tank', 'usualLitres'], 601], 'tank.usualLitres', '601', /at most 600, which is tank\.litres/);
    refuses([['tank', 'dryLitres'], 520], 'tank.dryLitres', '520', /below 520/);
    refuses(
      [['tank', 'topUp'], { floatValveAtLitres: 601, litresPerMinute: 3 }],
      'tank.topUp.floatValveAtLitres',
      '601',
      /at most 600/,
    );
    expect(problemsWith([['tank', 'usualLitres'], 600])).toEqual([]);
  });

  it('the plan stays inside the bounds and the pump', () => {
    refuses(
      [['dayPlan', 0, 'floodMinutes'], 36],
      'dayPlan.0.floodMinutes',
      '36',
      /10 to 35, from bounds\.floodMinutes/,
    );
    refuses([['dayPlan', 1, 'restMinutes'], 211], 'dayPlan.1.restMinutes', '211', /10 to 210/);
    refuses([['dayPlan', 1, 'restMinutes'], 9], 'dayPlan.1.restMinutes', '9', /10 to 210/);
    refuses(
      [['pump', 'longestOnMinutes'], 34],
      'bounds.floodMinutes.longest',
      '35',
      /at most 34, from pump\.longestOnMinutes/,
    );
    expect(problemsWith([['pump', 'longestOnMinutes'], 35])).toEqual([]);
  });

  it('refuses a pump that cannot lift 40 L/min by 1.3 m', () => {
    refuses(
      [['pump', 'litresPerMinuteMax'], 43],
      'pump.litresPerMinuteMax',
      '43 at no lift and 9 m at no flow',
      /lifts 40\.0 L\/min, the sum of all benches, by more than 1\.3 m\. .*only 1\.2 m/,
    );
    expect(problemsWith([['pump', 'litresPerMinuteMax'], 44])).toEqual([]);
  });

  it('refuses a sowing date 2 days after the invented today, and takes 1 day', () => {
    refuses(
      [['benches', 0, 'sown'], '2026-07-16'],
      'benches.0.sown',
      '2026-07-16',
      /only 2 days after today/,
    );
    expect(problemsWith([['benches', 0, 'sown'], '2026-07-15'])).toEqual([]);
    expect(problemsWith([['benches', 0, 'sown'], '2026-07-16'], [['invented'], undefined])).toEqual([]);
  });

  it('a bad value hides no disagreement elsewhere', () => {
    const problems = problemsWith(
      [['benches', 0, 'slopePercent'], 200],
      [['benches', 3, 'name'], 'Bench 1'],
      [['dayPlan', 0, 'floodMinutes'], 61],
      [['dayPlan', 1, 'from'], '08:30'],
      [['floors', 'wilt'], 0.6],
    );
    expect(placesOf(problems)).toEqual([
      'benches.0.slopePercent',
      'dayPlan.0.floodMinutes',
      'benches.3.name',
      'dayPlan.1.from',
      'floors.wilt',
    ]);
  });

  it.each([undefined, null, 5, 'text', [], [1], {}, true, NaN])(
    'refuses %s with problems, not by throwing',
    (raw) => {
      const parsed = parseFarm(raw);
      expect(parsed.ok).toBe(false);
      expect(!parsed.ok && parsed.problems.length).toBeGreaterThan(0);
    },
  );

  it('leaves what it was given as it was', () => {
    const raw = changed();
    parseFarm(raw);
    expect(raw).toEqual(exampleFile());
  });
});
