import { power } from './portable-math.ts';

/** Of the plants of HortScience 39(4):854D (2004), °C. */
export const BREATHING_LAW_CELSIUS = { least: 6, most: 31 } as const;

/**
 * What a rate of living tissue is multiplied by when it is `celsius` instead of `referenceCelsius`, where ten degrees
 * multiply it by `q10`: the rule of van 't Hoff. Whole lettuce has a q10 of 1.4 (small) to 1.75 (large plants) from 6 to
 * 31 °C, HortScience 39(4):854D (2004); past that heat it breathes less, so the rule errs towards too little oxygen.
 */
export const q10Factor = (q10: number, celsius: number, referenceCelsius: number): number =>
  power(q10, (celsius - referenceCelsius) / 10);
