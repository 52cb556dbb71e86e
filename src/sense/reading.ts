/** What is believed of one sensor at one moment. Anything not `good` means the hot-day, wetter side. */
export type Reading<Value> =
  | { readonly quality: 'good'; readonly value: Value; readonly ageSeconds: number }
  | { readonly quality: 'stale'; readonly value: Value; readonly ageSeconds: number; readonly why: string }
  | { readonly quality: 'suspect'; readonly value: Value; readonly ageSeconds: number; readonly why: string }
  | { readonly quality: 'absent'; readonly why: string };

/** The value when it is good, else undefined. */
export const goodValue = <Value>(reading: Reading<Value>): Value | undefined =>
  reading.quality === 'good' ? reading.value : undefined;
