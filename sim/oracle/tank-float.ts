import type { RunRecord } from './record.ts';

/** The float of the shed hangs so far above the dry end of its tank. */
export const FLOAT_ABOVE_DRY_LITRES = 20;
/** What its switch needs to fall or to rise for good. */
const WITHIN_LITRES = 5;

/** Whether, after a step, the tank was truly so low that its float has fallen. */
export const floatIsLow = ({ truth, farm }: RunRecord, step: number): boolean =>
  (truth.tankLitres[step] ?? Infinity) < farm.tank.dryLitres + FLOAT_ABOVE_DRY_LITRES - WITHIN_LITRES;
