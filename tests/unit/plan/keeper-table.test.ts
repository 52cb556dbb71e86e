import { describe, expect, it } from 'vitest';
import type { Farm } from '../../../src/farm/farm.ts';
import { keeperTable, keeperTableOfYear, type KeeperTable } from '../../../src/plan/keeper-table.ts';
import { farmWith, type Change } from '../../support/farm.ts';

const JULY = '2026-07-14';

const tableOf = (farm: Farm, date: string = JULY): KeeperTable => {
  const plan = keeperTable(farm, date);
  if (plan.kind === 'impossible') throw new Error(plan.why);
  return plan.table;
};
const rows = (farm: Farm, date?: string): readonly (readonly number[])[] =>
  tableOf(farm, date).parts.map(({ fromMinute, restSeconds, coolRestSeconds, floodSeconds }) => [
    fromMinute / 60,
    restSeconds / 60,
    coolRestSeconds / 60,
    floodSeconds / 60,
  ]);
const parts = (
  ...given: readonly (readonly [from: string, to: string, rest: number, flood: number])[]
): Change => [
  ['dayPlan'],
  given.map(([from, to, restMinutes, floodMinutes]) => ({
    part: `from ${from}`,
    from,
    to,
    restMinutes,
    floodMinutes,
  })),
];

describe('the keeper table of a day', () => {
  it('has the rests of 36 °C by day and of 30 °C in the cool: 24 % shorter from 08:00 on', () => {
    // 4 % for each of six degrees; Hillside's reference of 30 °C is above its mean of 28.5 °C by night.
    expect(rows(farmWith())).toContainEqual([8, 19, 25, 20]);
  });

  it('begins a part five minutes early where the sun ends the one before: 06:20 for a sunrise at 06:23', () => {
    expect(rows(farmWith()).map(([from]) => from)).toContain(6 + 20 / 60);
  });

  it('of one part all day is one part from midnight, where day and night have the same bounds and no rule', () => {
    const farm = farmWith(parts(['06:00', '06:00', 40, 15]), [
      ['temperatureRule', 'restPercentPerDegree'],
      0,
    ]);
    expect(rows(farm)).toEqual([[0, 40, 40, 15]]);
  });

  it('of one part that the sun alone divides has day and night', () => {
    const farm = farmWith(parts(['06:00', '06:00', 50, 15]));
    const [day, night] = rows(farm);
    expect(day?.slice(1)).toEqual([38, 50, 15]);
    expect(night?.slice(1)).toEqual([50, 50, 15]);
  });

  it('a part over midnight is one part, and the last of the table', () => {
    const farm = farmWith(
      parts(['07:00', '22:00', 30, 15], ['22:00', '07:00', 100, 10]),
      [['temperatureRule', 'restPercentPerDegree'], 0],
      [['bounds', 'restMinutesByDay', 'longest'], 200],
    );
    expect(rows(farm)).toEqual([
      [7, 30, 30, 15],
      [22, 100, 100, 10],
    ]);
  });

  it('a boundary between two steps belongs to the wetter part: 30 min from 10:00 though it ends at 10:02', () => {
    const farm = farmWith(
      parts(['06:03', '10:02', 30, 15], ['10:02', '18:00', 60, 15], ['18:00', '06:03', 30, 15]),
      [['temperatureRule', 'restPercentPerDegree'], 0],
    );
    expect(rows(farm)).toEqual([
      [10 + 5 / 60, 60, 60, 15],
      [18, 30, 30, 15],
    ]);
  });

  it('takes the longer flood of both temperatures, whatever the sign of the rule, and no more than the bound', () => {
    const flood = (percent: number, longest = 35): number | undefined =>
      rows(
        farmWith(
          [['temperatureRule', 'floodPercentPerDegree'], percent],
          [['bounds', 'floodMinutes', 'longest'], longest],
          [['pump', 'longestOnMinutes'], Math.max(longest, 25)],
        ),
      ).find(([from]) => from === 8)?.[3];
    expect([flood(5), flood(-5), flood(5, 22)]).toEqual([26, 20, 22]);
  });

  it('rounds a rest by number of floods down to half minutes: 2 floods of 20 min in 119 min rest 39.5 min', () => {
    const farm = farmWith(
      [
        ['dayPlan'],
        [
          { part: 'a', from: '12:00', to: '13:59', floods: 2, floodMinutes: 20 },
          { part: 'b', from: '13:59', to: '12:00', restMinutes: 60, floodMinutes: 20 },
        ],
      ],
      [['temperatureRule', 'restPercentPerDegree'], 0],
    );
    expect(rows(farm)).toEqual([
      [12, 39.5, 39.5, 20],
      [14, 60, 60, 20],
    ]);
  });

  it('never rounds a rest below the shortest of the plan: 10.2 min stay 612 s', () => {
    const farm = farmWith(
      parts(['06:00', '06:00', 11, 10]),
      [['bounds', 'restMinutesByDay', 'shortest'], 10.2],
      [['bounds', 'restMinutesByNight', 'shortest'], 10.2],
    );
    expect(tableOf(farm).parts[0]?.restSeconds).toBe(612);
  });

  it.each([
    [4, 0.9, 294, true],
    [4, 1, 300, false],
  ])(
    'of a rest of %d min and a flood of %d min, %d s in all, says that a board is drier: %s',
    (rest, flood, span, drier) => {
      const farm = farmWith(
        parts(['06:00', '06:00', rest, flood]),
        [['temperatureRule', 'restPercentPerDegree'], 0],
        [
          ['bounds'],
          {
            restMinutesByDay: { shortest: 4, longest: 10 },
            restMinutesByNight: { shortest: 4, longest: 10 },
            floodMinutes: { shortest: 0.5, longest: 5 },
            startsPerHour: 12,
          },
        ],
      );
      const plan = keeperTable(farm, JULY);
      const says = plan.kind === 'table' ? plan.says.join() : plan.why;
      expect(says.includes(`take only ${span} s`)).toBe(drier);
    },
  );

  it('with 12 parts joins neighbours to 8, the alike first, on their wet side, and says so', () => {
    const clock = (hour: number): string => `${String(hour % 24).padStart(2, '0')}:00`;
    const twelve = parts(
      ...Array.from({ length: 12 }, (_, place): readonly [string, string, number, number] => {
        // Pairs of 30 and 31 min alternate with lonely ones of 40 to 60.
        const rest = [30, 31, 60][place % 3]!;
        return [clock(2 * place), clock(2 * place + 2), rest, place % 3 === 1 ? 12 : 10];
      }),
    );
    const farm = farmWith(twelve, [['temperatureRule', 'restPercentPerDegree'], 0]);
    const plan = keeperTable(farm, JULY);
    expect(plan.kind === 'table' && plan.says.join()).toContain('has 12 stretches');
    expect(rows(farm)).toEqual(
      [0, 4, 6, 10, 12, 16, 18, 22].map((hour) => (hour % 6 === 0 ? [hour, 30, 30, 12] : [hour, 60, 60, 10])),
    );
  });

  it('lets a host rest as long as its bounds and a quarter of an hour: 210 + 15 min', () => {
    expect(tableOf(farmWith()).longestRestSeconds).toBe(225 * 60);
  });

  it('waits 8 min for water, as a host does before it has learned better', () => {
    expect(tableOf(farmWith()).returnLagSeconds).toBe(480);
  });

  it('is the same for days in a row but for what the sun moves: in a plan by the clock, without a rule, all year', () => {
    const farm = farmWith(parts(['07:00', '19:00', 40, 15], ['19:00', '07:00', 60, 15]), [
      ['temperatureRule', 'restPercentPerDegree'],
      0,
    ]);
    const tables = new Set(
      Array.from({ length: 53 }, (_, week) =>
        JSON.stringify(tableOf(farm, new Date(Date.UTC(2026, 0, 1 + 7 * week)).toISOString().slice(0, 10))),
      ),
    );
    expect(tables.size).toBe(1);
  });

  it('on the day that has no 02:00 to 03:00 fills the hour that is not there', () => {
    const farm = farmWith(
      parts(['02:30', '14:00', 60, 15], ['14:00', '02:30', 40, 10]),
      [['temperatureRule', 'restPercentPerDegree'], 0],
      [['place', 'timeZone'], 'Europe/Berlin'],
    );
    // By clock the part begins at the jump; the hour itself takes the wetter of both.
    expect(rows(farm, '2026-03-29')).toEqual([
      [2, 40, 40, 15],
      [3, 60, 60, 15],
      [14, 40, 40, 10],
    ]);
    expect(rows(farm, '2026-03-30')).toEqual([
      [2.5, 60, 60, 15],
      [14, 40, 40, 10],
    ]);
  });

  it('on the day that has 02:00 to 03:00 twice takes the wetter of both', () => {
    const farm = farmWith(
      parts(['02:30', '14:00', 60, 15], ['14:00', '02:30', 40, 10]),
      [['temperatureRule', 'restPercentPerDegree'], 0],
      [['place', 'timeZone'], 'Europe/Berlin'],
    );
    // 02:30 comes first in summer time; by then the part has begun, and it is 02:00 once more.
    expect(rows(farm, '2026-10-25')).toEqual([
      [2, 40, 40, 15],
      [2.5, 60, 60, 15],
      [14, 40, 40, 10],
    ]);
  });

  it('of a farm that no board can keep says which number it is', () => {
    const farm = farmWith();
    const short = { ...farm, pump: { ...farm.pump, longestOnMinutes: 0.4 } };
    expect(keeperTable(short, JULY)).toEqual({
      kind: 'impossible',
      why: 'the day plan of 2026-07-14 does not fit a board: a flood of 24 s; allowed is 30 to 24 s',
    });
  });
});

describe('the keeper table of the year', () => {
  const partAt = ({ parts }: KeeperTable, minute: number): KeeperTable['parts'][number] =>
    parts.findLast(({ fromMinute }) => fromMinute <= minute) ?? parts.at(-1)!;

  it('is at no minute drier than that of any day of 2028, so a board flashed in December serves in July', () => {
    const farm = farmWith();
    const plan = keeperTableOfYear(farm);
    if (plan.kind === 'impossible') throw new Error(plan.why);
    for (let day = 0; day < 365; day += 13) {
      const table = tableOf(farm, new Date(Date.UTC(2028, 0, 1 + day)).toISOString().slice(0, 10));
      for (let minute = 0; minute < 1440; minute += 5) {
        const [year, own] = [partAt(plan.table, minute), partAt(table, minute)];
        expect(year.restSeconds).toBeLessThanOrEqual(own.restSeconds);
        expect(year.coolRestSeconds).toBeLessThanOrEqual(own.coolRestSeconds);
        expect(year.floodSeconds).toBeGreaterThanOrEqual(own.floodSeconds);
      }
    }
  });

  it('of a plan by the clock, without a rule, is that of any day', () => {
    const farm = farmWith(parts(['07:00', '19:00', 40, 15], ['19:00', '07:00', 60, 15]), [
      ['temperatureRule', 'restPercentPerDegree'],
      0,
    ]);
    expect(keeperTableOfYear(farm)).toEqual(keeperTable(farm, JULY));
  });
});
