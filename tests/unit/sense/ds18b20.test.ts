import { describe, expect, it } from 'vitest';
import { ds18b20 } from '../../../src/sense/ds18b20.ts';

describe('the DS18B20', () => {
  it.each([
    [0x07d0, 125],
    [0x0191, 25.0625],
    [0x00a2, 10.125],
    [0x0008, 0.5],
    [0x0000, 0],
    [0xfff8, -0.5],
    [0xff5e, -10.125],
    [0xfe6f, -25.0625],
    [0xfc90, -55],
  ])('DS18B20 datasheet, Table 1: code %i is %d °C', (code, celsius) => {
    expect(ds18b20(code)).toEqual({ kind: 'temperature', celsius });
  });

  it('DS18B20 datasheet, Table 1: 0x0550, 85 °C, is its power-on value; a sixteenth beside it is a temperature', () => {
    expect(ds18b20(0x0550)).toEqual({ kind: 'power-on' });
    expect(ds18b20(0x054f)).toEqual({ kind: 'temperature', celsius: 84.9375 });
    expect(ds18b20(0x0551)).toEqual({ kind: 'temperature', celsius: 85.0625 });
  });

  it('0xFFFF is a data line with nobody on it; 0xFFFE is −0.125 °C', () => {
    expect(ds18b20(0xffff)).toEqual({ kind: 'silent' });
    expect(ds18b20(0xfffe)).toEqual({ kind: 'temperature', celsius: -0.125 });
  });

  it.each([0x07d1, 0x7fff, 0x8000, 0xfc8f])(
    'DS18B20 datasheet, −55 to 125 °C: code %i is out of range',
    (code) => {
      expect(ds18b20(code)).toEqual({ kind: 'out-of-range' });
    },
  );

  it.each([-1, 0x1_0000, 0.5, NaN, Infinity])('%d is no 16-bit code', (code) => {
    expect(ds18b20(code)).toEqual({ kind: 'not-a-code' });
  });

  // 180 °C in sixteenths and both ends are 2881 codes, without 0x0550 and 0xFFFF.
  it('DS18B20 datasheet: of all 65,536 codes 2879 are temperatures, rising by a sixteenth', () => {
    const signed = Array.from({ length: 0x1_0000 }, (_, step) => step - 0x8000);
    const temperatures = signed.flatMap((step) => {
      const found = ds18b20(step < 0 ? step + 0x1_0000 : step);
      if (found.kind !== 'temperature') return [];
      expect(found.celsius).toBe(step / 16);
      return [found.celsius];
    });
    expect(temperatures).toHaveLength(2879);
  });
});
