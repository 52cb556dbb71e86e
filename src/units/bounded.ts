/** `value` moved to the nearest end of [`least`, `most`] when it lies outside. */
export const bounded = (value: number, least: number, most: number): number =>
  Math.min(most, Math.max(least, value));
