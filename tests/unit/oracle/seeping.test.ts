import { describe, expect, it } from 'vitest';
import { causes } from '../../../sim/oracle/invariants/causes.ts';
import { recovery } from '../../../sim/oracle/invariants/recovery.ts';
import type { RunRecord } from '../../../sim/oracle/record.ts';
import type { Happening } from '../../../src/journal/entry.ts';
import { MINUTE, quietRecord, rows } from './quiet-record.ts';

const MINUTES = 720;
/** Floods of 20 min, the second after a rest in which the channels drain for so long. */
const FLOODS = [
  [580, 600],
  [625, 645],
] as const;

const raised: Happening = {
  kind: 'alarm-raised',
  alarm: 'flow-sensor-stuck',
  priority: 'medium',
  text: 'Return sensor shows water though the pump rests.',
};
const verdict = (kind: 'unproven' | 'confirmed'): Happening => ({
  kind: 'verdict',
  flood: 2,
  part: 'day',
  verdict: { kind, says: 'by the pump current' },
});

interface Told {
  readonly drainsMinutes: number;
  readonly atMinute: number;
  readonly flood?: 'unproven' | 'confirmed';
}

const told = ({ drainsMinutes, atMinute, flood }: Told): RunRecord => {
  const ended = flood === undefined ? [] : ([[atMinute, verdict(flood)]] as const);
  const record = quietRecord({ rows: rows(...ended, [atMinute, raised]), clearMillis: 0 });
  const steps = Array.from({ length: MINUTES }, (_, step) => step + 1);
  const full = record.farm.benches.reduce((sum, { litresPerMinute }) => sum + litresPerMinute, 0);
  const flows = (minute: number): boolean =>
    FLOODS.some(([from, until]) => minute > from && minute <= until + drainsMinutes);
  return {
    ...record,
    truth: {
      ...record.truth,
      atMillis: steps.map((minute) => minute * MINUTE),
      inflow: [steps.map(() => 0)],
      returning: steps.map((minute) => (flows(minute) ? full / 4 : 0)),
      runs: FLOODS.map(([from, until]) => ({ fromMillis: from * MINUTE, untilMillis: until * MINUTE })),
    },
  };
};
const CAUSELESS = [expect.stringContaining('without anything that could cause it') as unknown];
const UNPROVEN = [expect.stringContaining('flood 2 was unproven') as unknown];
const words = (breaches: readonly { readonly words: string }[]): readonly string[] =>
  breaches.map(({ words: said }) => said);

describe('a return sensor that is told stuck with nothing broken, to the judge', () => {
  it.each([
    ['while slow channels drain', { drainsMinutes: 15, atMinute: 614 }, []],
    ['while none do', { drainsMinutes: 8, atMinute: 614 }, CAUSELESS],
    [
      'with a flood that is unproven after they did',
      { drainsMinutes: 15, atMinute: 645, flood: 'unproven' },
      [],
    ],
    [
      'with one that is unproven after they did not',
      { drainsMinutes: 8, atMinute: 645, flood: 'unproven' },
      CAUSELESS,
    ],
    ['with one that is proven', { drainsMinutes: 15, atMinute: 645, flood: 'confirmed' }, CAUSELESS],
    ['after a flood, with no verdict', { drainsMinutes: 15, atMinute: 645 }, CAUSELESS],
  ] as const)('%s', (_, what, breaches) => {
    expect(words(causes(told(what)))).toEqual(breaches);
  });

  it('explains the unproven flood with which it is told, where channels did drain into the rest before', () => {
    const at = (drainsMinutes: number) => told({ drainsMinutes, atMinute: 645, flood: 'unproven' });
    expect(words(recovery(at(15)))).toEqual([]);
    expect(words(recovery(at(8)))).toEqual(UNPROVEN);
  });
});
