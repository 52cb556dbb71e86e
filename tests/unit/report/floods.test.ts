import { describe, expect, it } from 'vitest';
import type { Rehearsal } from '../../../firmware-host/cli/rehearsal.ts';
import { floodsOf } from '../../../firmware-host/report/floods.ts';
import { floodRibbon } from '../../../firmware-host/report/ribbon.ts';
import type { Entry, Happening } from '../../../src/journal/entry.ts';
import { monotonicMillis, wallMillis } from '../../../src/time/instant.ts';
import type { Verdict } from '../../../src/verify/verdict.ts';
import { clock, rehearsalOf } from '../cli/made-rehearsal.ts';

const entry = (at: string, happening: Happening): Entry => ({
  ...happening,
  at: monotonicMillis(clock(at)),
  wall: wallMillis(clock(at)),
});
const begun = (at: string, flood: number): Entry =>
  entry(at, { kind: 'flood-started', flood, part: 'noon', minutes: 20, reason: 'it was due' });
const judged = (at: string, flood: number, kind: 'confirmed' | 'unproven' | 'withheld'): Entry =>
  entry(at, { kind: 'verdict', flood, part: 'noon', verdict: { kind, says: `seen as ${kind}` } });
const missed = (at: string, flood: number): Entry => {
  const verdict = { kind: 'missed', says: 'no water came back' } as Verdict;
  return entry(at, { kind: 'verdict', flood, part: 'noon', verdict });
};

const withEntries = (...entries: readonly Entry[]): Rehearsal => {
  const made = rehearsalOf([{}]);
  return { ...made, outcomes: made.outcomes.map((outcome) => ({ ...outcome, entries })) };
};

const DAY = withEntries(
  judged('00:02', 1, 'confirmed'),
  begun('06:00', 2),
  judged('06:21', 2, 'confirmed'),
  begun('12:00', 3),
  missed('12:06', 3),
  judged('13:00', 4, 'withheld'),
  begun('23:50', 5),
);

describe('the floods of a rehearsal', () => {
  it('are those begun or withheld in the span, each with one end', () => {
    expect(floodsOf(DAY).map(({ atMillis, end, minutes }) => [atMillis, end, minutes])).toEqual([
      [clock('06:00'), 'confirmed', 20],
      [clock('12:00'), 'missed', 20],
      [clock('13:00'), 'withheld', null],
      [clock('23:50'), 'not-judged', 20],
    ]);
  });

  it('are counted in words: 1 confirmed, 1 missed, 1 withheld', () => {
    expect(floodRibbon(DAY)).toContain(
      '<p>15 July: 1 confirmed, 1 missed, 1 withheld, 1 no verdict yet at the end</p>',
    );
  });

  it('stand at their place in the day: noon at 50 %, 20 min wide, a missed one with its sign above', () => {
    const ribbon = floodRibbon(DAY);
    expect(ribbon).toContain(
      '<i class="missed" style="left:50.00%;width:1.39%"></i><b class="missed" style="left:50.69%">✖</b>',
    );
    expect(ribbon).toContain('<i class="confirmed" style="left:25.00%;width:1.39%"></i><i');
  });

  it('end with the day in the ribbon: one from 23:50 on is 10 min wide there', () => {
    expect(floodRibbon(DAY)).toContain('<i class="not-judged" style="left:99.31%;width:0.69%"></i>');
  });

  it('are all in the table, with verdict and reason in words', () => {
    const table = floodRibbon(DAY).split('<tbody>')[1] ?? '';
    expect(table.match(/<tr>/g)).toHaveLength(4);
    expect(table).toContain(
      '12:00, 20 min<td class="missed">✖ missed<td>noon: it was due · no water came back',
    );
  });

  it('may be none: the ribbon says so', () => {
    expect(floodRibbon(withEntries())).toContain('<p>15 July: no flood</p>');
  });
});
