import { drawnRun } from '../../../sim/campaign/seed.ts';
import type { OrderGiven, Row, RunRecord } from '../../../sim/oracle/record.ts';
import type { Happening } from '../../../src/journal/entry.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';

export const MINUTE = 60_000;
const { farm } = drawnRun({ seed: 42, days: 1 });

/** Of a farm with 12 hours behind it in which nothing was broken, asked or written; all from moment 0 on. */
export const quietRecord = (but: Partial<RunRecord> = {}): RunRecord => ({
  farm,
  startMillis: 0,
  endMillis: 720 * MINUTE,
  clearMillis: 720 * MINUTE,
  broken: [],
  truth: {
    atMillis: [],
    held: [],
    inflow: [],
    returning: [],
    tankLitres: [],
    airCelsius: [],
    way: [],
    drop: [],
    runs: [],
  },
  thirsty: [],
  rows: [],
  acknowledged: [],
  tries: [],
  orders: [],
  ...but,
});

/** What was written, each with its minute, by the first host. */
export const rows = (...happened: readonly (readonly [minute: number, Happening])[]): readonly Row[] =>
  happened.map(([minute, happening], place) => ({
    seq: place + 1,
    life: 1,
    atMillis: minute * MINUTE,
    entry: { ...happening, at: monotonicMillis(minute * MINUTE), wall: 'unknown' },
  }));

export const order = (
  minute: number,
  given: Pick<OrderGiven, 'order' | 'who'> & Partial<OrderGiven>,
): OrderGiven => ({ atMillis: minute * MINUTE, minutes: null, alarm: null, ...given });
