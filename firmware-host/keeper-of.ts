import { setupBlock } from '../src/farm/keeper-setup.ts';
import type { Farm, Wiring } from '../src/farm/farm.ts';
import { keeperTable, tableBytes } from '../src/plan/keeper-table.ts';
import { isPlausible } from '../src/time/clock-trust.ts';
import type { WallMillis } from '../src/time/instant.ts';
import { localDayOf } from '../src/time/local-day.ts';
import type { LinkAsked } from './devices/board-link.ts';

/**
 * What a board with a keeper must have been flashed for, and the table of the present day that it should flood by;
 * null while nobody knows what day it is, or where no board can keep the plan.
 */
export const keeperOf = (
  farm: Farm,
  wiring: Wiring,
  wallNow: () => WallMillis,
): NonNullable<LinkAsked['keeper']> => {
  let known: { readonly date: string; readonly bytes: Uint8Array | null } | null = null;
  return {
    setup: setupBlock(farm, wiring),
    table: () => {
      const wall = wallNow();
      if (!isPlausible(wall)) return null;
      const { date } = localDayOf(wall, farm.place.timeZone);
      if (known?.date !== date) {
        const plan = keeperTable(farm, date);
        known = { date, bytes: plan.kind === 'table' ? tableBytes(plan.table) : null };
      }
      return known.bytes;
    },
  };
};
