/** Digital thermometer DS18B20: its 16-bit temperature register, in sixteenths of a degree. DS18B20 datasheet, Table 1. */

const CODES = 0x1_0000;
const SIGN_BIT = 0x8000;
const CELSIUS_PER_STEP = 1 / 16;
/** The register after power-on, 85 °C, until a conversion is done. A true 85 °C is given up for it. */
const POWER_ON_CODE = 0x0550;
/** What a data line with nobody on it reads. A true −0.0625 °C is given up for it. */
const SILENT_CODE = 0xffff;
/** The range of the part. DS18B20 datasheet. */
const CELSIUS = { least: -55, most: 125 } as const;

export type Ds18b20 =
  | { readonly kind: 'temperature'; readonly celsius: number }
  /**
   * `power-on`: no conversion was made. `silent`: nobody answered. `out-of-range`: below −55 or above 125 °C.
   * `not-a-code`: no whole number from 0 to 65535.
   */
  | { readonly kind: 'power-on' | 'silent' | 'out-of-range' | 'not-a-code' };

/**
 * Temperature of a raw register code, 0 to 0xFFFF, two's complement. A line shorted to ground reads 0, which is 0 °C
 * here and which even the checksum passes: the caller looks at the configuration byte, which is never 0.
 */
export const ds18b20 = (code: number): Ds18b20 => {
  if (!(Number.isInteger(code) && code >= 0 && code < CODES)) return { kind: 'not-a-code' };
  if (code === POWER_ON_CODE) return { kind: 'power-on' };
  if (code === SILENT_CODE) return { kind: 'silent' };
  const celsius = (code < SIGN_BIT ? code : code - CODES) * CELSIUS_PER_STEP;
  if (celsius < CELSIUS.least || celsius > CELSIUS.most) return { kind: 'out-of-range' };
  return { kind: 'temperature', celsius };
};
