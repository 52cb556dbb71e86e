import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  changedFarm,
  changedText,
  type PartChange,
  type PlanChange,
} from '../../../firmware-host/farm-file/plan-change.ts';
import { farmFromText } from '../../../firmware-host/farm-file/read.ts';
import type { Farm } from '../../../src/farm/farm.ts';

const RIBEIRA = readFileSync(
  fileURLToPath(new URL('../../../docs/examples/ribeira.yaml', import.meta.url)),
  'utf8',
);
const HEAD = RIBEIRA.slice(0, RIBEIRA.indexOf('dayPlan:'));
const TAIL = RIBEIRA.slice(RIBEIRA.indexOf('bounds:'));

/** A key and its value as they stand in the file. */
interface Entry {
  readonly key: string;
  readonly value: string;
}

interface Part {
  readonly part: string;
  readonly from: string;
  readonly to: string;
  readonly pace: Entry;
  readonly floodMinutes: number;
}

interface Numbers {
  readonly parts: readonly Part[];
  readonly percent: number;
}

const halves = (least: number, most: number): fc.Arbitrary<number> =>
  fc.integer({ min: least * 2, max: most * 2 }).map((steps) => steps / 2);
/** Within the bounds of the farm, and short enough together for its shortest part of two hours. */
const pace: fc.Arbitrary<Entry> = fc.oneof(
  fc.integer({ min: 1, max: 3 }).map((floods) => ({ key: 'floods', value: String(floods) })),
  halves(10, 75).map((minutes) => ({ key: 'restMinutes', value: String(minutes) })),
);
const STRETCHES = [
  ['early morning', '06:00', '08:00'],
  ['heat of the day', '08:00', '16:00'],
  ['late afternoon', '16:00', 'sunset+00:30'],
  ['night', 'sunset+00:30', '06:00'],
] as const;

const numbers: fc.Arbitrary<Numbers> = fc.record({
  parts: fc.tuple(
    ...STRETCHES.map(([part, from, to]) =>
      fc.record({
        part: fc.constant(part),
        from: fc.constant(from),
        to: fc.constant(to),
        pace,
        floodMinutes: halves(10, 35),
      }),
    ),
  ),
  percent: halves(-20, 0),
});

/** How one map is written; each list is used in turn, one place for each key. */
interface Style {
  readonly shape: 'block' | 'flow' | 'flow over lines' | 'explicit keys';
  readonly order: readonly number[];
  readonly quotes: readonly ('' | "'" | '"')[];
  readonly gaps: readonly string[];
  readonly comments: readonly string[];
  readonly anchored: boolean;
}

const ENTRIES_MAX = 5;
const five = <Value>(value: fc.Arbitrary<Value>): fc.Arbitrary<Value[]> =>
  fc.array(value, { minLength: ENTRIES_MAX, maxLength: ENTRIES_MAX });
const comment = fc.oneof(
  fc.constant(''),
  fc.constantFrom(' # floods: 3', ' # “25” {x}: *a &b', '   #', '\t# - part: night', ' # ação 水 🌱'),
  fc.stringMatching(/^[ -~]{0,20}$/).map((words) => ` #${words}`),
);
const style: fc.Arbitrary<Style> = fc.record({
  shape: fc.constantFrom('block', 'flow', 'flow over lines', 'explicit keys'),
  order: fc.shuffledSubarray([0, 1, 2, 3, 4], { minLength: ENTRIES_MAX }),
  quotes: five(fc.constantFrom('', "'", '"')),
  gaps: five(fc.constantFrom(' ', '  ', '      ')),
  comments: five(comment),
  anchored: fc.boolean(),
});

/** The lines of a map, the first without its indent. */
const mapLines = (entries: readonly Entry[], how: Style, indent: string, name: string): readonly string[] => {
  const { shape, order, quotes, gaps, comments, anchored } = how;
  const sorted = order.flatMap((at) => entries[at] ?? []);
  const written = sorted.map(({ key, value }, at) => {
    const quoted = `${quotes[at]!}${key}${quotes[at]!}`;
    const anchor = anchored && !/['"]/.test(value) ? `&${name}${at} ` : '';
    return { quoted, value: `${gaps[at]!}${anchor}${value}` };
  });
  const flat = written.map(({ quoted, value }) => `${quoted}:${value}`);
  switch (shape) {
    case 'block':
      return flat.map((line, at) => `${at === 0 ? '' : indent}${line}${comments[at]!}`);
    case 'explicit keys':
      return written.flatMap(({ quoted, value }, at) => [
        `${at === 0 ? '' : indent}? ${quoted}${comments[at]!}`,
        `${indent}:${value}`,
      ]);
    case 'flow':
      return [`{${gaps[0]!}${flat.join(`,${gaps[1]!}`)} }${comments[0]!}`];
    case 'flow over lines':
      return [`{`, ...flat.map((line, at) => `${indent}  ${line},${comments[at]!}`), `${indent}}`];
  }
};

interface Writing {
  readonly parts: readonly Style[];
  readonly rule: Style;
  readonly between: readonly string[];
  readonly lineBreak: string;
  readonly ruleFirst: boolean;
}

const writing: fc.Arbitrary<Writing> = fc.record({
  parts: fc.array(style, { minLength: 4, maxLength: 4 }),
  rule: style,
  between: five(fc.oneof(fc.constantFrom('', '  '), comment)),
  lineBreak: fc.constantFrom('\n', '\r\n'),
  ruleFirst: fc.boolean(),
});

const farmText = ({ parts, percent }: Numbers, how: Writing): string => {
  const plan = parts.flatMap(({ part, from, to, pace: own, floodMinutes }, at) => {
    const entries = [
      { key: 'part', value: part },
      { key: 'from', value: `'${from}'` },
      { key: 'to', value: `"${to}"` },
      own,
      { key: 'floodMinutes', value: String(floodMinutes) },
    ];
    const [first, ...rest] = mapLines(entries, how.parts[at]!, '    ', `p${at}`);
    return [how.between[at]!, `  - ${first!}`, ...rest];
  });
  const entries = [
    { key: 'referenceCelsius', value: '25' },
    { key: 'restPercentPerDegree', value: String(percent) },
  ];
  const [first, ...rest] = mapLines(entries, how.rule, '  ', 'r');
  // A flow map may stand behind its key; a block begins on a line of its own.
  const opening = how.rule.shape.startsWith('flow')
    ? [`temperatureRule: ${first!}`]
    : [`temperatureRule:${how.between[4]!}`, `  ${first!}`];
  const blocks = [
    ['dayPlan:', ...plan],
    [...opening, ...rest],
  ];
  const lines = (how.ruleFirst ? blocks.toReversed() : blocks).flat();
  return `${HEAD}${lines.join('\n')}\n${TAIL}`.replaceAll('\n', how.lineBreak);
};

/** What to change so that one plan becomes the other; of some parts only the number that differs. */
const changeTo = (before: Numbers, wanted: Numbers): PlanChange => ({
  parts: wanted.parts.map(({ part, pace: own, floodMinutes }, at): PartChange => ({
    part,
    ...(own.key === 'floods' ? { floods: Number(own.value) } : { restMinutes: Number(own.value) }),
    ...(floodMinutes === before.parts[at]!.floodMinutes ? {} : { floodMinutes }),
  })),
  ...(wanted.percent === before.percent ? {} : { restPercentPerDegree: wanted.percent }),
});

const accepted = (text: string): Farm => {
  const read = farmFromText(text, 'ribeira.yaml');
  expect(read.ok ? [] : read.problems).toEqual([]);
  return (read as { readonly farm: Farm }).farm;
};

describe('a farm file with other numbers', () => {
  it('in 500 ways to write the farm, is byte for byte the file that its writer would have written with them', () => {
    const kinds = new Set<string>();
    fc.assert(
      fc.property(numbers, numbers, writing, (before, wanted, how) => {
        const text = farmText(before, how);
        const change = changeTo(before, wanted);
        const made = changedText(text, change);
        expect(made.ok ? made.text : made.problems).toBe(farmText(wanted, how));
        for (const { shape } of [...how.parts, how.rule]) kinds.add(shape);
      }),
      { numRuns: 500 },
    );
    expect(kinds.size).toBe(4);
  });

  it('in 30 ways to write it, holds the wanted farm and is accepted by its checks', () => {
    fc.assert(
      fc.property(numbers, numbers, writing, (before, wanted, how) => {
        const text = farmText(before, how);
        const change = changeTo(before, wanted);
        const made = changedText(text, change);
        const farm = accepted(made.ok ? made.text : '');
        expect(farm).toEqual(changedFarm(accepted(text), change));
        expect(farm.temperatureRule.restPercentPerDegree).toBe(wanted.percent + 0);
        expect(farm.dayPlan.map(({ floodMinutes }) => floodMinutes)).toEqual(
          wanted.parts.map(({ floodMinutes }) => floodMinutes),
        );
        expect(
          farm.dayPlan.map(({ pace: own }) => String(own.kind === 'rest' ? own.restMinutes : own.floods)),
        ).toEqual(wanted.parts.map(({ pace: own }) => own.value));
      }),
      // Each farm is checked for every day of a year: tens of milliseconds.
      { numRuns: 30 },
    );
  });

  it('and back again, is the file as it was', () => {
    fc.assert(
      fc.property(numbers, numbers, writing, (before, wanted, how) => {
        const text = farmText(before, how);
        const there = changedText(text, changeTo(before, wanted));
        const back = changedText(there.ok ? there.text : '', changeTo(wanted, before));
        expect(back.ok && back.text).toBe(text);
      }),
      { numRuns: 200 },
    );
  });
});
