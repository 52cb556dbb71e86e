import { POWER } from './table/power.ts';
import { WATER } from './table/water.ts';
import { TIME } from './table/time.ts';
import { LINK } from './table/link.ts';
import { SENSORS } from './table/sensors.ts';
import { STORAGE } from './table/storage.ts';
import { DELIVERY } from './table/delivery.ts';
import { SOFTWARE } from './table/software.ts';
import { FARM } from './table/farm.ts';
import type { FaultGroup, FaultRow } from './fault-row.ts';

/** Everything that can go wrong, as this project is held to it; docs/reliability.md is made from it. */
export const FAULT_TABLE: readonly FaultGroup[] = [
  POWER,
  WATER,
  TIME,
  LINK,
  SENSORS,
  STORAGE,
  DELIVERY,
  SOFTWARE,
  FARM,
];

export const FAULT_ROWS: readonly FaultRow[] = FAULT_TABLE.flatMap(({ rows }) => rows);
