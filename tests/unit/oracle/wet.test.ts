import { describe, expect, it } from 'vitest';
import { wet } from '../../../sim/oracle/invariants/wet.ts';
import type { Broken, RunRecord } from '../../../sim/oracle/record.ts';
import type { Happening } from '../../../src/journal/entry.ts';
import { MINUTE, quietRecord, rows } from './quiet-record.ts';

const MINUTES = 720;
/** The way to water is lost; the first bench then dries at an even pace, and is below its wilt floor 400 min later. */
const LOST = 200;
const HALF = LOST + 200;
const heldAt = (minute: number): number => 0.9 - Math.max(0, minute - LOST) * (0.705 / 400);

interface Told {
  readonly raised?: readonly (readonly [minute: number, alarm: AlarmName])[];
  readonly away?: readonly [name: 'host-killed' | 'host-frozen', from: number, until: number];
  /** Water can be given again from here on. */
  readonly wayBack?: number;
  readonly dropsUntil?: number;
}
type AlarmName = Extract<Happening, { kind: 'alarm-raised' }>['alarm'];

const dried = ({ raised = [], away, wayBack = MINUTES + 1, dropsUntil = LOST }: Told): RunRecord => {
  const quiet = quietRecord();
  const steps = Array.from({ length: MINUTES }, (_, place) => place + 1);
  const benches = quiet.farm.benches.map((_, bench) => bench);
  const broken: readonly Broken[] =
    away === undefined
      ? []
      : [{ name: away[0], fromMillis: away[1] * MINUTE, untilMillis: away[2] * MINUTE }];
  return {
    ...quiet,
    broken,
    truth: {
      ...quiet.truth,
      atMillis: steps.map((minute) => minute * MINUTE),
      held: benches.map((bench) => steps.map((minute) => (bench === 0 ? heldAt(minute) : 0.9))),
      way: benches.map(() => steps.map((minute) => minute <= LOST || minute > wayBack)),
      drop: benches.map(() => steps.map((minute) => minute <= dropsUntil || minute > wayBack)),
      runs: [{ fromMillis: (LOST - 20) * MINUTE, untilMillis: LOST * MINUTE }],
    },
    rows: rows(
      ...raised.map(([minute, alarm]): readonly [number, Happening] => [
        minute,
        { kind: 'alarm-raised', alarm, priority: 'high', text: 'water' },
      ]),
    ),
  };
};

describe('a bench that wilts 400 min after the last way to water, to the judge', () => {
  it.each<readonly [string, Told, number]>([
    ['must have been called about', {}, 1],
    ['was, where the missed flood was told within 200 min', { raised: [[HALF - 1, 'missed-flood']] }, 0],
    ['was not, where it was told after 202 min', { raised: [[HALF + 2, 'missed-flood']] }, 1],
    ['was, where the low tank was told 3 h before it ran dry', { raised: [[20, 'tank-low']] }, 0],
    ['was not by water on the floor that has stood for 3 h', { raised: [[20, 'water-on-floor']] }, 1],
    [
      'nor by a pump that ran on, or a float in doubt, before',
      {
        raised: [
          [20, 'pump-runs-on'],
          [30, 'float-suspect'],
        ],
      },
      1,
    ],
    ['was, where water on the floor was told after that', { raised: [[LOST + 1, 'water-on-floor']] }, 0],
    ['is not excused by a host that was dead for 30 s', { away: ['host-killed', LOST + 10, LOST + 10.5] }, 1],
    ['nor by one that was frozen for an hour before it', { away: ['host-frozen', 100, 160] }, 1],
    [
      'is called about later, where the host was dead until then',
      { away: ['host-killed', LOST + 1, HALF], raised: [[HALF + 20, 'missed-flood']] },
      0,
    ],
    ['is to be called about then too', { away: ['host-killed', LOST + 1, HALF] }, 1],
    [
      'is not, where water could be given again before that',
      { away: ['host-killed', LOST + 1, 590], wayBack: 601 },
      0,
    ],
    [
      'is called about later, where drops could be given for 60 min more',
      { dropsUntil: LOST + 60, raised: [[HALF + 20, 'missed-flood']] },
      0,
    ],
    ['nor where the host was dead to the end', { away: ['host-killed', LOST + 1, MINUTES] }, 0],
  ])('%s', (_, told, breaches) => {
    expect(wet(dried(told))).toHaveLength(breaches);
  });
});
