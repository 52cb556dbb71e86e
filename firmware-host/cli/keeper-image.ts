import { setupBlock } from '../../src/farm/keeper-setup.ts';
import type { Wiring } from '../../src/farm/farm.ts';
import { keeperTableOfYear, tableBytes } from '../../src/plan/keeper-table.ts';
import { readBoardHex } from '../firmware-image/board-hex.ts';
import { withProgramCrc, withSetup } from '../firmware-image/flash-image.ts';
import { parseIntelHex } from '../firmware-image/intel-hex.ts';
import type { AcceptedFarm } from './farm-argument.ts';
import { fittingPlan } from './keeper-farm.ts';

/** The whole flash of this farm's board. @throws Refusal when no board can keep the plan */
export const keeperImage = async (
  { farm, file }: AcceptedFarm,
  wiring: Wiring,
  watchdog: 'on' | 'off',
): Promise<Uint8Array> => {
  const program = withProgramCrc(parseIntelHex(await readBoardHex()));
  // The flash serves when the stored table is lost, whatever the season is then.
  const { table } = fittingPlan(keeperTableOfYear(farm), file);
  return withSetup(program, setupBlock(farm, wiring, watchdog), tableBytes(table));
};
