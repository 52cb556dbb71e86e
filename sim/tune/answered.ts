/** Floods in order, minutes since the start: when each begins and ends. */
export interface FloodTimes {
  readonly begins: ArrayLike<number>;
  readonly ends: ArrayLike<number>;
}

/**
 * Whether the day parts looked at answer for a flood: it begins in one of them, or is the first after one, for which the benches wait since
 * the last flood inside. `within` is 1 in each minute of those parts.
 */
export const answersFor = ({ begins }: FloodTimes, place: number, within: Uint8Array): boolean =>
  within[Math.floor(begins[place] ?? NaN)] === 1 ||
  (place > 0 && within[Math.floor(begins[place - 1] ?? NaN)] === 1);
