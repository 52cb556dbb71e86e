/** Something in an accepted farm file that is unlikely, or unsafe to leave as it is. */
export interface FarmWarning {
  readonly path: readonly (string | number)[];
  /** What was seen, with its numbers. */
  readonly says: string;
  readonly advice: string;
}

/** One warning, or none. */
export const warnWhen = (unlikely: boolean, warning: FarmWarning): readonly FarmWarning[] =>
  unlikely ? [warning] : [];
