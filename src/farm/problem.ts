/** One thing in a farm file that cannot be accepted, in words for the grower. */
export interface FarmProblem {
  /** Keys and places from the top of the file to the value at fault. */
  readonly path: readonly (string | number)[];
  /** The value as it stands in the file, or what was seen there. */
  readonly found: string;
  readonly allowed: string;
  /** One sentence: why it cannot be accepted. */
  readonly problem: string;
  /** Present when the key itself is at fault and not what stands behind it. */
  readonly pointsAt?: 'key';
  /** One sentence: what to write instead, where that can be guessed. */
  readonly advice?: string;
}
