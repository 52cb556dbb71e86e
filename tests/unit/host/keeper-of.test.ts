import { describe, expect, it } from 'vitest';
import { keeperOf } from '../../../firmware-host/keeper-of.ts';
import { keeperTable, tableBytes } from '../../../src/plan/keeper-table.ts';
import { wallMillis, type WallMillis } from '../../../src/time/instant.ts';
import { exampleFarm } from '../../support/farm.ts';
import { utc } from '../../support/moments.ts';
import { EVERY_PART } from '../../support/wiring.ts';

const bytesOn = (date: string): Uint8Array => {
  const plan = keeperTable(exampleFarm, date);
  if (plan.kind !== 'table') throw new Error(plan.why);
  return tableBytes(plan.table);
};

describe('the table for a board with a keeper', () => {
  it('is that of the believed date, and none while no date is believed: the board keeps what it has', () => {
    let believed: WallMillis | 'unknown' = 'unknown';
    const { table } = keeperOf(exampleFarm, EVERY_PART, () => believed);
    expect(table?.()).toBeNull();
    believed = utc('2026-07-14T11:00:00Z');
    expect(table?.()).toEqual(bytesOn('2026-07-14'));
    believed = 'unknown';
    expect(table?.()).toBeNull();
    believed = wallMillis(utc('2026-12-14T11:00:00Z'));
    expect(table?.()).toEqual(bytesOn('2026-12-14'));
    expect(bytesOn('2026-12-14')).not.toEqual(bytesOn('2026-07-14'));
  });
});
