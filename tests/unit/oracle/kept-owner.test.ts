import { describe, expect, it } from 'vitest';
import { drawnRun } from '../../../sim/campaign/seed.ts';
import { keptOwner } from '../../../sim/oracle/invariants/kept-owner.ts';
import type { RunRecord } from '../../../sim/oracle/record.ts';

const MINUTE = 60_000;
/** The line is gone from 10:00 to 12:00. */
const LOST = { fromMinute: 600, untilMinute: 720 } as const;
const STEPS = 1440;
/** Hot enough for rests of less than 25 min. */
const HOTTER_CELSIUS = 8;

/** Floods as `runs` has them, minutes since midnight, of a farm that floods for 20 min after rests of 20 to 30 min. */
const record = (runs: readonly (readonly [from: number, until: number])[], keeps = true): RunRecord => {
  const { farm, startMillis } = drawnRun({ seed: 10, days: 1 });
  const moment = (minute: number): number => startMillis + minute * MINUTE;
  const atMillis = Array.from({ length: STEPS }, (_, step) => moment(step + 1));
  const on = (step: number): boolean => runs.some(([from, until]) => from <= step && step < until);
  return {
    farm,
    startMillis,
    endMillis: moment(STEPS),
    clearMillis: moment(960),
    ...(keeps ? { keeps: true } : {}),
    broken: [
      { name: 'link-lost', fromMillis: moment(LOST.fromMinute), untilMillis: moment(LOST.untilMinute) },
    ],
    truth: {
      atMillis,
      held: [],
      inflow: farm.benches.map(() => atMillis.map((_, step) => (on(step) ? 10 : 0))),
      returning: atMillis.map(() => 0),
      tankLitres: atMillis.map(() => farm.tank.usualLitres),
      airCelsius: atMillis.map(() => farm.temperatureRule.referenceCelsius + HOTTER_CELSIUS),
      way: [],
      drop: [],
      runs: runs.map(([from, until]) => ({ fromMillis: moment(from), untilMillis: moment(until) })),
    },
    thirsty: [],
    rows: [],
    acknowledged: [],
    tries: [],
    orders: [],
  };
};

/** A flood of 20 min every 45, but for what is left out and with what is put in. */
const floods = (
  without: readonly number[] = [],
  more: readonly (readonly [number, number])[] = [],
): readonly (readonly [number, number])[] =>
  [
    ...Array.from({ length: 10 }, (_, place) => 500 + 45 * place)
      .filter((from) => !without.includes(from))
      .map((from) => [from, from + 20] as const),
    ...more,
  ].sort(([one], [other]) => one - other);

const words = (given: RunRecord): readonly string[] => keptOwner(given).map((breach) => breach.words);

describe('host or board, while the line is gone from 10:00 to 12:00', () => {
  it('floods go on every 45 min: no breach', () => {
    expect(words(record(floods()))).toEqual([]);
  });

  it('none comes for 115 min: neither had the pump', () => {
    expect(words(record(floods([590, 635, 680])))).toEqual([
      'no flood for 160 min while the board had the pump, 30 are its longest rest',
    ]);
  });

  it('the same of a board that keeps nothing is no breach of this', () => {
    expect(words(record(floods([590, 635, 680]), false))).toEqual([]);
  });

  it('the flood of the board from 11:25 to 11:55 is given again 6 min after it by a host that is back: doubled', () => {
    expect(
      words(
        record(
          floods(
            [680, 725],
            [
              [685, 715],
              [721, 741],
            ],
          ),
        ),
      ),
    ).toEqual(['host and board both flooded, 6.0 min apart; 11 are the shortest rest']);
  });

  it('a flood that began 8 min before the line is gone ends with it: cut off', () => {
    expect(
      words(
        record(
          floods(
            [590, 635],
            [
              [592, 600],
              [601, 621],
              [646, 666],
            ],
          ),
        ),
      ),
    ).toEqual(['a flood of 8.0 min was cut off as the pump changed hands']);
  });
});
