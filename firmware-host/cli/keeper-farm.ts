import type { Farm, Wiring } from '../../src/farm/farm.ts';
import { keeperTable, type KeeperPlan, type KeeperTable } from '../../src/plan/keeper-table.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { localDayOf } from '../../src/time/local-day.ts';
import { acceptedFarm, type AcceptedFarm } from './farm-argument.ts';
import { Refusal } from './refusal.ts';
import { wiringOf } from './wiring-argument.ts';

/** A farm file that may go to a real board, with what the board keeps of it today. */
export interface KeeperFarm {
  readonly accepted: AcceptedFarm;
  readonly farm: Farm;
  readonly wiring: Wiring;
  readonly date: string;
  readonly table: KeeperTable;
  /** What the table could not take over as the plan has it. */
  readonly says: readonly string[];
}

/** The table of a plan. @throws Refusal when no board can keep it */
export const fittingPlan = (plan: KeeperPlan, file: string): Extract<KeeperPlan, { kind: 'table' }> => {
  if (plan.kind === 'table') return plan;
  throw new Refusal(`${file}: ${plan.why}.`);
};

/** @throws Refusal when the file is refused or invented, wires no board, or its plan fits none */
export const keeperFarm = async (path: string, port: string): Promise<KeeperFarm> => {
  const accepted = await acceptedFarm(path);
  const { farm, file } = accepted;
  if (farm.invented !== undefined) {
    throw new Refusal(
      `${file}: this farm is invented, and its plan fits no real plants; found --board ${port}. Copy the file, make it yours, and delete the key "invented".`,
    );
  }
  const wiring = wiringOf(accepted);
  const { date } = localDayOf(wallMillis(Date.now()), farm.place.timeZone);
  const plan = fittingPlan(keeperTable(farm, date), file);
  return { accepted, farm, wiring, date, table: plan.table, says: plan.says };
};
