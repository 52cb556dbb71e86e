import { describe, expect, it } from 'vitest';
import { JUDGEMENT_WORDS } from '../../../firmware-host/cli/judgement-words.ts';
import { rehearsalJson } from '../../../firmware-host/cli/rehearsal-json.ts';
import { rehearsalText } from '../../../firmware-host/cli/rehearsal-report.ts';
import { shortName } from '../../../firmware-host/cli/rehearsal-table.ts';
import type { Fault } from '../../../firmware-host/simulated-shed.ts';
import { seededDice } from '../../../sim/dice.ts';
import { drawnJudgements, type Judgement } from '../../../sim/plant/judgements.ts';
import { farmWith, type Change } from '../../support/farm.ts';
import { clock, fault, rehearsalOf } from './made-rehearsal.ts';

const LONG = 'The long bench by the northern wall, no. ';
const longNames = [0, 1, 2, 3].map((place): Change => [
  ['benches', place, 'name'],
  `${LONG.slice(0, 38)}${place}`,
]);

const lineOf = (text: string, begin: string): string =>
  text.split('\n').find((line) => line.startsWith(begin)) ?? `no line begins with ${begin}`;

describe('the report for a person', () => {
  it.each([40, 60, 80, 100])('keeps its sentences within %d columns', (columns) => {
    const text = rehearsalText(
      rehearsalOf([{ missedTheta: 0.1, alarms: [[clock('13:00'), 'high']] }]),
      columns,
    );
    const sentences = text.split('\n').filter((line) => / [a-z]+ [a-z]+ /.test(line) && !line.includes('  '));
    expect(sentences.length).toBeGreaterThan(5);
    expect(sentences.filter((line) => line.length > columns)).toEqual([]);
  });

  it.each([80, 100])('keeps every line within %d columns, also with names of 39 letters', (columns) => {
    for (const faults of [[], [fault('13:00')]]) {
      const rehearsal = rehearsalOf(
        [{ wilts: { 0: clock('09:00', '2026-07-16') } }],
        faults,
        farmWith(...longNames),
      );
      const long = rehearsalText(rehearsal, columns)
        .split('\n')
        .filter((line) => line.length > columns);
      expect(long).toEqual([]);
    }
  });

  it('rounds water and margin to the dry side: 61.9 % is 61 %, 0.138 against a floor of 0.2 is −7 points', () => {
    const line = lineOf(rehearsalText(rehearsalOf([{ missedTheta: 0.138 }]), 100), 'Bench 2');
    expect(line.split(/ {2,}/)).toEqual(['Bench 2', '61', '3.2', '29', '71 min', '13:19', '−7']);
  });

  it('has a dash where no flood could be missed', () => {
    const text = rehearsalText(rehearsalOf([{ missedTheta: Infinity }]), 100);
    expect(lineOf(text, 'Bench 2')).toMatch(/13:19 +–$/);
  });

  it('tells below a verdict which other benches may wilt, and of those that only thirst how long', () => {
    const text = rehearsalText(
      rehearsalOf([
        { wilts: { 1: clock('14:00'), 2: clock('14:30') }, belowStressMinutes: 62 },
        { wilts: { 2: clock('14:20') } },
      ]),
      100,
    );
    expect(text).toContain('Bench 2 may begin to wilt from 14:00 (in 2 of 2 runs).');
    expect(text).toContain('\nBench 3 may begin to wilt from 14:20.\n');
    expect(text).toContain('\nBench 1 is below its stress floor for up to 62 min: growth slows.\n');
    expect(text).not.toMatch(/Bench [23] is below its stress floor/);
  });

  it('with a fault has a column of when each bench may wilt in place of time left and one-miss margin', () => {
    const text = rehearsalText(
      rehearsalOf([{ wilts: { 1: clock('14:00') } }], [fault('13:00', '15:00')]),
      100,
    );
    expect(text).toContain('Fault: pump-dead from 13:00 to 15:00.');
    expect(text).not.toMatch(/one-miss|time left|71 min/);
    expect(lineOf(text, 'Bench 1')).toMatch(/29 +–$/);
    expect(lineOf(text, 'Bench 2  ')).toMatch(/29 +14:00$/);
  });

  it('says which benches are past the age at which their crop is cut, and not of one that is cut today', () => {
    // On 15 July the butterhead of 21 May is 55 days old, that of 20 May 56; it is usually cut at 55.
    const heading = (sown: string): string =>
      rehearsalText(rehearsalOf([{}], [], farmWith([['benches', 1, 'sown'], sown])), 200);
    expect(heading('2026-05-20')).toContain(
      'Past the usual age at harvest, rehearsed as if the crop went on growing: Bench 2.',
    );
    expect(heading('2026-05-21')).not.toContain('Past the usual age');
  });

  it('names the bench whose inlet is blocked: the one of the script, or the first that is planted', () => {
    const blocked: Fault = { ...fault('13:00'), kind: 'inlet-blocked' };
    const heading = (one: Fault): string => rehearsalText(rehearsalOf([{}], [one]), 100);
    expect(heading({ ...blocked, bench: 2 })).toContain('Fault: inlet-blocked (Bench 3) from 13:00 on, not');
    expect(heading(blocked)).toContain('Fault: inlet-blocked (Bench 1) from 13:00 on, not mended.');
  });

  it('tells bands over the runs: 5, 50 and 95 % of 5, 10, 15 … 105 points of margin', () => {
    const runs = Array.from({ length: 21 }, (_, place) => ({ missedTheta: 0.25 + place / 20 }));
    expect(lineOf(rehearsalText(rehearsalOf(runs), 100), 'Bench 2')).toMatch(/\+10 – \+55 – \+100$/);
  });

  it('says of oxygen that it is a band, and in how many runs it is below what is known to do no harm', () => {
    expect(rehearsalText(rehearsalOf([{}, {}]), 400)).toContain(
      'Lowest oxygen about the roots: 3.2 – 3.2 – 3.2 mg/L (5, 50 and 95 % of the runs), never certain without a field test.',
    );
    expect(rehearsalText(rehearsalOf([{ oxygen: 1.2 }, {}]), 400)).toContain(
      'In 1 of 2 runs it falls below the 2.1 mg/L at which growth is known to be unharmed.',
    );
    expect(rehearsalText(rehearsalOf([{ oxygen: 1.2 }, {}]), 400)).not.toContain('was harmed');
  });

  it('rounds oxygen down, and tells one figure of one run', () => {
    const text = rehearsalText(rehearsalOf([{ oxygen: 2.09 }]), 400);
    expect(text).toContain(
      'Lowest oxygen about the roots: 2.0 mg/L, never certain without a field test. In 1 of 1',
    );
  });

  it('tells between which strengths the tank went, and not only how the span began and ended', () => {
    expect(rehearsalText(rehearsalOf([{}]), 400)).toContain(
      'Strength of the tank between 1.30 and 1.70 mS/cm, 1.60 at the beginning and 1.40 at the end of the day',
    );
  });

  it('says in how many runs oxygen falls to the 0.32 mg/L at which growth was harmed', () => {
    expect(rehearsalText(rehearsalOf([{ oxygen: 0.3 }, { oxygen: 1.2 }]), 400)).toContain(
      'In 1 of 2 runs it falls to the 0.32 mg/L at which growth was harmed, or lower.',
    );
  });

  it.each([
    [30, null],
    [31, 'its uptake of oxygen from the air is published (5 to 30 °C).'],
    [
      36,
      'the breathing of lettuce is published (6 to 31 °C), or its uptake of oxygen from the air is published (5 to 30 °C).',
    ],
    [
      43.6,
      'the oxygen it holds is published (0 to 40 °C), or the breathing of lettuce is published (6 to 31 °C), or its uptake of oxygen from the air is published (5 to 30 °C).',
    ],
  ])('says of water of %d °C which laws of its oxygen it is too warm for', (warmest, says) => {
    const text = rehearsalText(rehearsalOf([{ warmest }]), 400);
    if (says === null) expect(text).not.toContain('is published');
    else expect(text).toContain(`Water of ${warmest.toFixed(0)} °C is warmer than any for which ${says}`);
  });

  it('names what the verdict hangs on, and how to measure it; nothing with fewer than 16 draws', () => {
    const drawn = (count: number, judgement: Judgement = 'capacityFactor'): string => {
      const dice = seededDice(5);
      const rehearsal = rehearsalOf(Array.from({ length: count + 1 }, () => ({})));
      const outcomes = rehearsal.outcomes.map((outcome, run) => {
        if (run === 0) return outcome;
        const judgements = drawnJudgements(dice);
        const oneMiss = { theta: judgements[judgement] / 3, missedAtMillis: 0 };
        return {
          ...outcome,
          draw: run,
          judgements,
          benches: outcome.benches.map((bench) => ({ ...bench, oneMiss })),
        };
      });
      return rehearsalText({ ...rehearsal, outcomes }, 400);
    };
    expect(drawn(32)).toMatch(
      /hangs most on how much water the roots hold back \(\+1\.00\).*To know better: the wetting test/,
    );
    expect(drawn(12)).not.toContain('hangs most');
    // Water asks for none of these, so a correlation with them is chance.
    for (const judgement of [
      'respirationMilligrams',
      'airExchangeLitresPerMinute',
      'rootSubmergedShare',
      'mixingPerMinute',
      'cupContact',
      'cupSquareMetres',
    ] as const) {
      expect(drawn(32, judgement)).not.toContain(JUDGEMENT_WORDS[judgement].is);
    }
  });

  it('dates each moment where it is about several days', () => {
    const text = rehearsalText(
      {
        ...rehearsalOf([{ alarms: [[clock('13:30'), 'high']] }], [fault('13:00')]),
        days: 3,
        endMillis: clock('00:00', '2026-07-18'),
        scenario: 'water-shortage',
      },
      100,
    );
    expect(text).toContain('2026-07-15 and the 2 days after: rehearsed on');
    expect(text).toContain('No bench wilts by the end of the day after the last.');
    expect(text).toContain('Scenario water-shortage: three days on which no water comes into the tank.');
    expect(text).toContain('Fault: pump-dead from 13:00 on 15 July, not mended.');
    expect(text).toContain('13:30 on 15 July  An alarm');
  });

  it('says that alarms count on the dry side of the doubt where a wilting is told as well, and only there', () => {
    const alarms = [[clock('13:30'), 'high']] as const;
    const says =
      'they count on the dry side of the doubt, so a time of wilting in them lies before the one above:';
    expect(rehearsalText(rehearsalOf([{ alarms, wilts: { 1: clock('14:00') } }]), 400)).toContain(says);
    expect(rehearsalText(rehearsalOf([{ alarms }]), 400)).not.toContain('dry side');
  });

  it('tells the middle of the time left where there is room for it, and litres over the runs that differ', () => {
    const rehearsal = rehearsalOf([{}, {}, {}]);
    const [first, ...others] = rehearsal.outcomes;
    const longer = others.map((other, place) => ({
      ...other,
      drunkLitres: 210 + place,
      benches: other.benches.map((bench) => ({ ...bench, timeLeft: { ...bench.timeLeft, minutes: 168 } })),
    }));
    const text = (columns: number): string =>
      rehearsalText(
        { ...rehearsal, outcomes: [...(first === undefined ? [] : [first]), ...longer] },
        columns,
      );
    expect(lineOf(text(100), 'Bench 2')).toContain('81 min (2 h 48 min)');
    expect(text(100).replaceAll('\n', ' ')).toContain('(in brackets the middle)');
    expect(lineOf(text(80), 'Bench 2')).toMatch(/ 81 min +13:19/);
    expect(text(80)).not.toContain('in brackets the middle');
    expect(text(100)).toContain('200 L (200 to 211 over the runs)');
    expect(rehearsalText(rehearsalOf([{}]), 200)).toContain('drank 200 L. Strength');
  });

  it('hangs the lines of an alarm under its words', () => {
    const text = rehearsalText(rehearsalOf([{ alarms: [[clock('13:30'), 'high']] }]), 40);
    expect(text).toContain(
      'Alarms of the central run:\n13:30  An alarm of high priority, and\n       where to look first.',
    );
  });

  it('marks held water at or below the wilt floor with ×: 15 % from noon on', () => {
    const text = rehearsalText(rehearsalOf([{}]), 100);
    expect(text.split('\n').filter((line) => /^Bench \d █{36}×{36}$/.test(line))).toHaveLength(4);
    expect(lineOf(text, 'floods  ')).toBe(`floods  ${'·'.repeat(18)}▆${'·'.repeat(53)}`);
  });
});

describe('the report as data', () => {
  it('holds null, and no made-up number, for what was not asked or could not be', () => {
    const faulty = rehearsalJson(rehearsalOf([{}], [fault('13:00')]));
    expect(faulty).toMatchObject({
      faults: [{ kind: 'pump-dead', from: '2026-07-15T12:00:00.000Z', until: null }],
      faultCall: { firstAlarmAt: null, leadMinutes: null, silentRuns: 1 },
      benches: Array.from({ length: 4 }, () => ({ timeLeftMinutes: null, oneMissMarginPoints: null })),
    });
    const missless = rehearsalJson(rehearsalOf([{ missedTheta: Infinity }]));
    expect(missless).toMatchObject({ faultCall: null, faults: [] });
    expect(missless).toMatchObject({
      benches: Array.from({ length: 4 }, () => ({
        timeLeftMinutes: { low: 71, middle: 71, high: 71 },
        oneMissMarginPoints: null,
      })),
    });
  });
});

describe('shortName', () => {
  it('keeps a name that fits, and leaves out the middle of one that does not', () => {
    expect(shortName('Bench 1', 7)).toBe('Bench 1');
    expect(shortName('North bench 1', 9)).toBe('Nort…ch 1');
    expect(shortName('North bench 2', 8)).toBe('Nort…h 2');
  });
});
