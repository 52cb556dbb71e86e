import { power } from './portable-math.ts';

/** Of the streams that the factor was made for, °C. */
export const REAERATION_LAW_CELSIUS = { least: 5, most: 30 } as const;

/**
 * What the rate at which still water takes oxygen from the air is multiplied by, against that at 20 °C: 1.024^(T − 20).
 * SWAT+ theoretical documentation, eq. 7:3.5.4; made for streams of about 5–30 °C.
 */
export const reaerationFactor = (waterCelsius: number): number => power(1.024, waterCelsius - 20);
