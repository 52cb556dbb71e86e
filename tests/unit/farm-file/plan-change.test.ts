import { describe, expect, it } from 'vitest';
import {
  asWritten,
  changedFarm,
  changedText,
  type PlanChange,
} from '../../../firmware-host/farm-file/plan-change.ts';
import { farmFromText } from '../../../firmware-host/farm-file/read.ts';
import { BrokenAssertion } from '../../../src/units/assertion.ts';
import { exampleFarm } from '../../support/farm.ts';

const night = (change: Omit<PlanChange['parts'][number], 'part'>): PlanChange => ({
  parts: [{ part: 'night', ...change }],
});
const rule = (restPercentPerDegree: number): PlanChange => ({ parts: [], restPercentPerDegree });

/** The text after the change; each problem as line, column, what was found and what to do otherwise. */
const after = (text: string, change: PlanChange): string | readonly string[] => {
  const made = changedText(text, change);
  if (made.ok) return made.text;
  return made.problems.map(
    ({ line, column, found, advice }) => `${line}:${column} ${found}. ${advice ?? ''}`,
  );
};

const BLOCK = `# kept
dayPlan: # all of it
  - part: day
    restMinutes: 25
    floodMinutes: 20

  - part: night   # the cool one
    floods:   3   # three
    floodMinutes: 20
temperatureRule:
  restPercentPerDegree: -3 # a guess
`;

describe('changedText', () => {
  it.each<[title: string, change: PlanChange, from: string, to: string]>([
    ['a number of floods', night({ floods: 4 }), 'floods:   3 ', 'floods:   4 '],
    ['a number of floods for a rest', night({ restMinutes: 97.5 }), 'floods:   3 ', 'restMinutes:   97.5 '],
    ['a rest', { parts: [{ part: 'day', restMinutes: 27.5 }] }, 'restMinutes: 25', 'restMinutes: 27.5'],
    [
      'a rest for a number of floods',
      { parts: [{ part: 'day', floods: 9 }] },
      'restMinutes: 25',
      'floods: 9',
    ],
    ['the rule', rule(-3.5), '-3 #', '-3.5 #'],
    ['the rule to 0, never -0', rule(-0.001), '-3 #', '0 #'],
  ])('changes %s and no other byte of a file in block style', (_, change, from, to) => {
    expect(BLOCK.split(from)).toHaveLength(2);
    expect(after(BLOCK, change)).toBe(BLOCK.replace(from, to));
  });

  it('changes all numbers of two parts and the rule at once', () => {
    const parts = [
      { part: 'night', restMinutes: 110, floodMinutes: 12.5 },
      { part: 'day', floods: 12, floodMinutes: 9 },
    ];
    expect(after(BLOCK, { parts, restPercentPerDegree: -12 })).toBe(
      BLOCK.replace('restMinutes: 25', 'floods: 12')
        .replace('floodMinutes: 20', 'floodMinutes: 9')
        .replace('floods:   3', 'restMinutes:   110')
        .replace('floodMinutes: 20', 'floodMinutes: 12.5')
        .replace('-3 #', '-12 #'),
    );
  });

  it('changes nothing where the number stands already, however it is written', () => {
    for (const written of ['20', '20.0', '+20', '2e1', '0x14']) {
      const text = BLOCK.replaceAll('floodMinutes: 20', `floodMinutes: ${written}`);
      expect(after(text, night({ floods: 3, floodMinutes: 20 }))).toBe(text);
    }
    expect(after(BLOCK, { parts: [] })).toBe(BLOCK);
    expect(after(BLOCK, night({}))).toBe(BLOCK);
  });

  it.each<[title: string, from: string, to: string]>([
    ['a flow map', '- {part: night, floods: 3}', '- {part: night, restMinutes: 90}'],
    ['a flow map of JSON', '- {"part":"night","floods":3,}', '- {"part":"night","restMinutes":90,}'],
    ['single quotes', "- 'part': 'night'\n  'floods': 3", "- 'part': 'night'\n  'restMinutes': 90"],
    [
      'a name with blanks at its ends',
      '- part: " night "\n  floods: 3',
      '- part: " night "\n  restMinutes: 90',
    ],
    ['an escaped name', '- part: "\\x6eight"\n  floods: 3', '- part: "\\x6eight"\n  restMinutes: 90'],
    [
      'a flow map over lines',
      '- { floods: 3, # three\n    part: night }',
      '- { restMinutes: 90, # three\n    part: night }',
    ],
    [
      'a key of its own line',
      '- ? floods\n  : 3\n  ? part\n  : night',
      '- ? restMinutes\n  : 90\n  ? part\n  : night',
    ],
    [
      'anchors that nothing repeats',
      '- &a\n  part: night\n  floods: &b 3',
      '- &a\n  part: night\n  restMinutes: &b 90',
    ],
    [
      'a name repeated elsewhere',
      '- part: &n night\n  floods: 3\n  x: *n',
      '- part: &n night\n  restMinutes: 90\n  x: *n',
    ],
    [
      'a name by alias',
      '- {x: &n night}\n- part: *n\n  floods: 3',
      '- {x: &n night}\n- part: *n\n  restMinutes: 90',
    ],
    ['CRLF', '- part: night\r\n  floods: 3\r\n', '- part: night\r\n  restMinutes: 90\r\n'],
    ['no line break at the end', '- part: night\n  floods: 3', '- part: night\n  restMinutes: 90'],
    ['a flow list', '[{part: night, floods: 3}]', '[{part: night, restMinutes: 90}]'],
  ])('reads and keeps %s', (_, from, to) => {
    for (const [head, tail] of [
      ['', ''],
      ['\uFEFF', '\n'],
      ['%YAML 1.1\n---\n', '\n...\n'],
    ] as const)
      expect(
        after(`${head}dayPlan:\n ${from.replaceAll('\n', '\n ')}${tail}`, night({ restMinutes: 90 })),
      ).toBe(`${head}dayPlan:\n ${to.replaceAll('\n', '\n ')}${tail}`);
  });

  it.each<[title: string, plan: string, says: string]>([
    ['a value by alias', '- {part: x, floods: &f 3}\n- {part: night, floods: *f}', '3:26 the alias *f'],
    [
      'a value that an alias repeats',
      '- {part: night, floods: &f 3}\n- {part: x, floods: *f}',
      '2:29 the anchor &f',
    ],
    ['a part that an alias repeats', '- &p {part: night, floods: 3}\n- *p', '2:7 the anchor &p'],
    ['a part by alias', '- {part: x, y: &p {part: night, floods: 3}}\n- *p', '3:4 the alias *p'],
    [
      'a key that an alias repeats',
      '- {part: night, &k floods: 3}\n- {part: x, *k : 4}',
      '2:29 the anchor &k',
    ],
    ['a key by alias', '- {part: x, &k floods: 3}\n- {part: night, *k : 4}', '3:4 no plain key'],
    ['both kinds of pace', '- {part: night, floods: 3, restMinutes: 9}', '2:4 restMinutes and floods'],
    ['neither kind of pace', '- {part: night}', '2:4 no plain key restMinutes'],
    ['a number in quotes', '- {part: night, floods: "3"}', '2:26 a key or value written in an unusual way'],
    [
      'a number with a tag',
      '- {part: night, floods: !!int 3}',
      '2:32 a key or value written in an unusual way',
    ],
    ['an empty value', '- part: night\n  floods:', '3:4 a key or value written in an unusual way'],
    ['a list for a number', '- {part: night, floods: [3]}', '2:26 a key or value written in an unusual way'],
    [
      'a key over lines',
      '- ? |-\n    floods\n  : 3\n  part: night',
      '4:6 a key or value written in an unusual way',
    ],
    ['a part of another name', '- {part: Night, floods: 3}', '2:2 no part “night”'],
    ['no list', 'part: night', '2:2 no part “night”'],
  ])('refuses %s at its line, with what to do by hand', (_, plan, says) => {
    const told = after(`dayPlan:\n ${plan.replaceAll('\n', '\n ')}\n`, night({ restMinutes: 90 }));
    expect(told).toEqual([expect.stringMatching(/by hand(?:, without floods)?\.$/)]);
    expect(told[0]!.slice(0, says.length)).toBe(says);
  });

  it('tells every number that it cannot change, and changes none of the others', () => {
    const text = BLOCK.replace('floods:   3', 'floods: "3"').replace('-3', '"-3"');
    expect(after(text, { ...night({ floods: 4, floodMinutes: 9 }), restPercentPerDegree: -4 })).toEqual([
      '8:13 a key or value written in an unusual way. Here, write floods: 4 by hand, without restMinutes.',
      '11:25 a key or value written in an unusual way. Here, write restPercentPerDegree: -4 by hand.',
    ]);
  });

  it.each([
    ['two documents', `${BLOCK}---\n${BLOCK}`, 'text that cannot be read as YAML'],
    ['a key written twice', `${BLOCK}dayPlan: []\n`, 'dayPlan a second time'],
  ])('refuses %s', (_, text, found) => {
    const made = changedText(text, rule(-4));
    expect(made.ok ? [] : made.problems.map((problem) => problem.found)).toEqual([found]);
  });

  it('adds no rule of its own: a farm without the number is not accepted, so it is refused here as well', () => {
    const without = BLOCK.replace('  restPercentPerDegree: -3 # a guess', '  referenceCelsius: 25');
    const read = farmFromText(without, 'x.yaml');
    expect(!read.ok && read.problems.map(({ path }) => path.join('.'))).toContain(
      'temperatureRule.restPercentPerDegree',
    );
    expect(after(without, rule(-4))).toEqual([
      '11:3 no plain key restPercentPerDegree. In this block, write restPercentPerDegree: -4 by hand.',
    ]);
  });

  it('takes a change of two meanings, or of no number, for a defect', () => {
    for (const change of [
      night({ floods: 3, restMinutes: 90 }),
      { parts: [...night({ floods: 3 }).parts, ...night({ floods: 4 }).parts] },
      rule(NaN),
      rule(-Infinity),
    ]) {
      expect(() => changedText(BLOCK, change)).toThrow(BrokenAssertion);
      expect(() => changedFarm(exampleFarm, change)).toThrow(BrokenAssertion);
    }
  });
});

describe('asWritten', () => {
  it.each([
    [27.5, '27.5'],
    [27.500_000_000_000_004, '27.5'],
    [0.1 + 0.2, '0.3'],
    [1e-7, '0'],
    [-1e-7, '0'],
    [-3.256, '-3.26'],
    [180, '180'],
  ])('%d stands in the file as %s', (value, text) => {
    expect(String(asWritten(value))).toBe(text);
    expect(Object.is(asWritten(value), -0)).toBe(false);
  });
});
