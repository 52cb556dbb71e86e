import { readFileSync } from 'node:fs';
import { withProgramCrc, withSetup } from '../../firmware-host/firmware-image/flash-image.ts';
import { parseIntelHex } from '../../firmware-host/firmware-image/intel-hex.ts';
import { setupBlock } from '../../src/farm/keeper-setup.ts';
import type { Farm, Wiring } from '../../src/farm/farm.ts';
import { keeperTableOfYear, tableBytes, type KeeperTable } from '../../src/plan/keeper-table.ts';

/** The firmware as it is committed; a test of its own builds it anew and compares. */
const HEX = new URL('../../firmware-host/board-sketch/board.hex', import.meta.url);

export const program = (): Uint8Array => withProgramCrc(parseIntelHex(readFileSync(HEX, 'utf8')));

/** The table that a farm's board falls back on. @throws Error when no board can keep the plan */
export const flashTable = (farm: Farm): KeeperTable => {
  const plan = keeperTableOfYear(farm);
  if (plan.kind === 'impossible') throw new Error(plan.why);
  return plan.table;
};

/** The flash of a board as `board flash` would write it for this farm. */
export const imageFor = (farm: Farm, wiring: Wiring): Uint8Array =>
  withSetup(program(), setupBlock(farm, wiring), tableBytes(flashTable(farm)));
