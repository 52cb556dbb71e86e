import { PLANTED_BESIDE } from './planted-beside.ts';
import { PLANTED_KEEPER } from './planted-keeper.ts';
import { PLANTED_IN_MEMORY } from './planted-memory.ts';
import { PLANTED_ORDERS } from './planted-orders.ts';
import { PLANTED_IN_PLAN } from './planted-plan.ts';
import { PLANTED_TIME } from './planted-time.ts';
import { PLANTED_WATER } from './planted-water.ts';
import type { Planted } from './planting.ts';

// The place of a bug draws the seeds in which it shows: new ones go to the end.
export const PLANTED: readonly Planted[] = [
  ...PLANTED_WATER,
  ...PLANTED_TIME,
  ...PLANTED_IN_MEMORY,
  ...PLANTED_BESIDE,
  ...PLANTED_ORDERS,
  ...PLANTED_KEEPER,
  ...PLANTED_IN_PLAN,
];
