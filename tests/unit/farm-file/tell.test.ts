import { describe, expect, it } from 'vitest';
import { farmFromText } from '../../../firmware-host/farm-file/read.ts';
import { pathWords, tellProblems, tellWarnings } from '../../../firmware-host/farm-file/tell.ts';

describe('tellProblems', () => {
  it('one line for each problem and a closing count', () => {
    const told = tellProblems('ribeira.yaml', [
      {
        line: 12,
        column: 9,
        path: ['benches', 0, 'slopePercent'],
        found: '200',
        allowed: '0.1 to 15',
        problem: 'The number is too large.',
      },
      {
        line: 20,
        column: 1,
        path: [],
        found: 'farm a second time',
        allowed: 'each key once in its block',
        problem: 'This key stands above already.',
        advice: 'Remove one of the two.',
      },
    ]);
    expect(told.split('\n')).toEqual([
      'ribeira.yaml:12:9  benches[0].slopePercent: found 200; allowed 0.1 to 15. The number is too large.',
      'ribeira.yaml:20:1  found farm a second time; allowed each key once in its block. This key stands above already. Remove one of the two.',
      '2 problems; the farm file was not accepted.',
    ]);
  });

  it('shows what would move the cursor or end the line as its number', () => {
    const read = farmFromText('"\\e[2J\\x9b2J\\n\\L": 1', 'x.yaml');
    const told = tellProblems('x.yaml', read.ok ? [] : read.problems);
    // eslint-disable-next-line no-control-regex -- they are what is looked for
    expect(told.replaceAll('\n', '')).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u2028]/);
    expect(told).toContain(String.raw`\u001b[2J\u009b2J\u000a\u2028`);
  });

  it('tells 50 of 1013 and counts the rest', () => {
    const read = farmFromText(
      Array.from({ length: 2000 }, (_, place) => `key${place}: 1`).join('\n'),
      'x.yaml',
    );
    const lines = tellProblems('x.yaml', read.ok ? [] : read.problems).split('\n');
    expect(lines).toHaveLength(52);
    expect(lines.slice(-2)).toEqual(['… and 950 more.', '1000 problems; the farm file was not accepted.']);
  });
});

describe('tellWarnings', () => {
  it('in the order of the lines, with the place of each', () => {
    const told = tellWarnings(
      'x.yaml',
      [
        { path: ['deadBoard'], says: 'Second.', advice: 'B.' },
        { path: ['benches', 1, 'sown'], says: 'First.', advice: 'A.' },
      ],
      (path) => ({ line: path.length, column: 3 }),
    );
    // The stand-in puts the longer path on the later line.
    expect(told.split('\n')).toEqual([
      'x.yaml:1:3  deadBoard: Second. B.',
      'x.yaml:3:3  benches[1].sown: First. A.',
      '2 warnings; the farm file was accepted.',
    ]);
  });
});

describe('pathWords', () => {
  it.each([
    [[], ''],
    [['farm'], 'farm'],
    [['benches', 0, 'name'], 'benches[0].name'],
    [['dayPlan', 11], 'dayPlan[11]'],
  ])('%j is %s', (path, words) => {
    expect(pathWords(path)).toBe(words);
  });
});
