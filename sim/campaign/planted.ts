import { PLANTED_TIME } from './planted-time.ts';
import { PLANTED_WATER } from './planted-water.ts';
import type { Planted } from './planting.ts';

export const PLANTED: readonly Planted[] = [...PLANTED_WATER, ...PLANTED_TIME];
