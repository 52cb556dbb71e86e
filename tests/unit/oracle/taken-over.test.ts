import { describe, expect, it } from 'vitest';
import { noSilentMiss } from '../../../sim/oracle/invariants/no-silent-miss.ts';
import type { RunRecord } from '../../../sim/oracle/record.ts';
import type { Happening } from '../../../src/journal/entry.ts';
import { MINUTE, quietRecord, rows } from './quiet-record.ts';

const MINUTES = 720;

interface Board {
  readonly keeps?: true;
  /** The host asks for the pump as it writes of the flood. */
  readonly asked?: true;
  /** Since when the pump runs. */
  readonly runsFrom?: number;
}

/** A flood that a host writes of at minute 114 and calls confirmed at 115; the pump ran to 115, and water into the bench from one minute to another. */
const confirmed = (
  water: readonly [from: number, until: number],
  { asked, runsFrom = 100, ...keeps }: Board,
): RunRecord => {
  const started: Happening = {
    kind: 'flood-started',
    flood: 1,
    part: 'keeper table',
    minutes: 15,
    reason: 'begun by the board 14 min ago, and taken over',
  };
  const verdict: Happening = {
    kind: 'verdict',
    flood: 1,
    part: 'keeper table',
    verdict: { kind: 'confirmed', says: 'water was back when the board was heard again' },
  };
  const on: Happening = { kind: 'pump-asked', pump: 'on', longestSeconds: null };
  const begun = asked === true ? [[114, on] as const, [114, started] as const] : [[114, started] as const];
  const record = quietRecord({ ...keeps, rows: rows(...begun, [115, verdict]) });
  const steps = Array.from({ length: MINUTES }, (_, step) => step + 1);
  const full = record.farm.benches.reduce((sum, { litresPerMinute }) => sum + litresPerMinute, 0);
  return {
    ...record,
    truth: {
      ...record.truth,
      atMillis: steps.map((minute) => minute * MINUTE),
      inflow: [steps.map((minute) => (minute > water[0] && minute <= water[1] ? full : 0))],
      returning: steps.map(() => 0),
      runs: [{ fromMillis: runsFrom * MINUTE, untilMillis: 115 * MINUTE }],
    },
  };
};
const said = (record: RunRecord): readonly string[] => noSilentMiss(record).map(({ words }) => words);
const DRY = [expect.stringMatching(/^flood 1 was confirmed though 0 of \d+ L came$/)];

describe('a flood that is confirmed in its last minute, to the judge', () => {
  it.each([
    ['the board began it, and its water came before it was taken over', [100, 113], { keeps: true }, []],
    ['the board began it, and no water came', [0, 0], { keeps: true }, DRY],
    ['the board began it, and water came to the run before it alone', [80, 100], { keeps: true }, DRY],
    ['the pump has run for longer than it may, dry since', [20, 60], { keeps: true, runsFrom: 20 }, DRY],
    ['the host asked for it while the pump ran, dry by now', [100, 113], { keeps: true, asked: true }, DRY],
    ['no board could begin it', [100, 113], {}, DRY],
  ] as const)('%s', (_, water, keeps, words) => {
    expect(said(confirmed(water, keeps))).toEqual(words);
  });
});
