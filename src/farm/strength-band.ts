import type { Farm } from './farm.ts';

/**
 * Shares of the usual strength, where the farm file names no band. Wide enough that a day's drinking and a usual top-up
 * stay inside, narrow enough that a double or a forgotten dose does not. Judgement, no source.
 */
const USUAL_SHARE = { least: 0.75, most: 1.3 } as const;

/** What the strength of the solution may be, mS/cm at 25 °C. */
export interface StrengthBand {
  readonly least: number;
  readonly usual: number;
  readonly most: number;
}

export const strengthBandOf = ({ tank }: Pick<Farm, 'tank'>): StrengthBand => {
  const { strengthMillisiemensPerCm: usual, strengthBand: band } = tank;
  return {
    least: band?.leastMillisiemensPerCm ?? usual * USUAL_SHARE.least,
    usual,
    most: band?.mostMillisiemensPerCm ?? usual * USUAL_SHARE.most,
  };
};
