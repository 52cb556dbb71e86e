import { cropWarnings } from './crop-warnings.ts';
import type { Farm } from './farm.ts';
import { heraldWarnings } from './herald-warnings.ts';
import { planWarnings } from './plan-warnings.ts';
import type { FarmWarning } from './warning.ts';
import { watchWarnings } from './watch-warnings.ts';
import { waterWarnings } from './water-warnings.ts';

export type { FarmWarning } from './warning.ts';

/**
 * Slips of units and unlikely values in a farm that the parser has accepted, on a local date (`2026-07-14`).
 * None of them stops anything. Whether the crop lasts through a hot day is for the rehearsal to say.
 */
export const physicsWarnings = (farm: Farm, today: string): readonly FarmWarning[] => [
  ...waterWarnings(farm, today),
  ...cropWarnings(farm, today),
  ...planWarnings(farm, today),
  ...watchWarnings(farm),
  ...heraldWarnings(farm),
];
