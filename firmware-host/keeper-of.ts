import { setupBlock } from '../src/farm/keeper-setup.ts';
import type { Farm, Wiring } from '../src/farm/farm.ts';
import { keeperTable, tableBytes } from '../src/plan/keeper-table.ts';
import type { WallMillis } from '../src/time/instant.ts';
import { localDayOf } from '../src/time/local-day.ts';
import type { LinkAsked } from './devices/board-link.ts';

/**
 * What a board with a keeper must have been flashed for, and the table of the present day that it should flood by: null
 * where no board can keep the plan, and while the date is in doubt, so that the board keeps the table it has.
 * `believedWall` is the wall time as far as the controller believes it, never what a clock says by itself.
 */
export const keeperOf = (
  farm: Farm,
  wiring: Wiring,
  believedWall: () => WallMillis | 'unknown',
): NonNullable<LinkAsked['keeper']> => {
  let known: { readonly date: string; readonly bytes: Uint8Array | null } | null = null;
  return {
    setup: setupBlock(farm, wiring),
    table: () => {
      const wall = believedWall();
      if (wall === 'unknown') return null;
      const { date } = localDayOf(wall, farm.place.timeZone);
      if (known?.date !== date) {
        const plan = keeperTable(farm, date);
        known = { date, bytes: plan.kind === 'table' ? tableBytes(plan.table) : null };
      }
      return known.bytes;
    },
  };
};
