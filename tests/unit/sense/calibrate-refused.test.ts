import { describe, expect, it } from 'vitest';
import { type CalibrationRequest } from '../../../src/sense/calibrate.ts';
import type { AnalogModule } from '../../../src/sense/probe-module.ts';
import { accepted, calibrate, dip, MODULE, WIDE } from './dips.ts';

describe('a calibration that is refused', () => {
  const refusals: [string, string, CalibrationRequest['dips'], AnalogModule?][] = [
    ['1.413, typed in mS/cm', 'standard-out-of-range', [dip(1.413, 283)]],
    ['a standard above the module’s range, 12 880 of 5120', 'standard-out-of-range', [dip(12_880, 1000)]],
    ['84 alone on 5 µS/cm a count, 17 counts', 'standard-out-of-range', [dip(84, 17)]],
    ['159 on 20 µS/cm a count, 8 counts', 'standard-out-of-range', [dip(159, 8), dip(12_880, 644)], WIDE],
    ['84 on 20 µS/cm a count, 4 counts', 'standard-out-of-range', [dip(84, 4), dip(12_880, 644)], WIDE],
    ['49 µS/cm', 'standard-out-of-range', [dip(49, 10), dip(1413, 283)]],
    ['a standard that is no number', 'standard-out-of-range', [dip(NaN, 283)]],
    ['4.9 °C', 'temperature-out-of-range', [dip(1413, 283, 4.9)]],
    ['40.1 °C', 'temperature-out-of-range', [dip(1413, 283, 40.1)]],
    ['a temperature that is no number', 'temperature-out-of-range', [dip(1413, 283, NaN)]],
    ['a second cup at 4 °C', 'temperature-out-of-range', [dip(500, 100), dip(1413, 283, 4)]],
    ['4 counts', 'too-few-counts', [dip(1413, [283, 283, 283, 283])]],
    ['no counts', 'too-few-counts', [dip(1413, [])]],
    ['a count of 1024', 'impossible-count', [dip(1413, [283, 283, 1024, 283, 283])]],
    ['a count that is no number', 'impossible-count', [dip(1413, [283, 283, NaN, 283, 283])]],
    ['2 counts', 'dry', [dip(1413, 2)]],
    ['1021 counts', 'at-top', [dip(4000, 1021)]],
    ['counts that spread by 1.01 %', 'unstable', [dip(2000, [400, 400, 400, 400, 404.05])]],
    ['17 to 19 counts', 'unstable', [dip(84, [17, 17, 19, 17, 17]), dip(1413, 283)]],
    ['1413 with 2105, a factor of 1.49', 'points-too-close', [dip(1413, 283), dip(2105, 421)]],
    ['the same standard twice', 'points-too-close', [dip(1413, 283), dip(1413, 283)]],
    ['one bottle used twice', 'points-too-close', [dip(500, 283), dip(1413, 283)]],
    ['signals a factor of 1.19 apart', 'points-too-close', [dip(500, 283), dip(1413, 283 * 1.19)]],
    ['signals a factor of 1.21 apart', 'cell-factor-out-of-range', [dip(500, 283), dip(1413, 283 * 1.21)]],
    [
      'signals a factor of 1.19 apart, turned round',
      'points-too-close',
      [dip(500, 283 * 1.19), dip(1413, 283)],
    ],
    ['signals a factor of 1.21 apart, turned round', 'wrong-order', [dip(500, 283 * 1.21), dip(1413, 283)]],
    ['bottles swapped', 'wrong-order', [dip(500, 283), dip(1413, 100)]],
    ['a cell of 0.49', 'cell-factor-out-of-range', [dip(980, 400)]],
    ['a cell of 2.01', 'cell-factor-out-of-range', [dip(1005, 100)]],
    // 505 − 500/1.25 = 105 and 395 − 500·3495/3500 = −104.3; 2 % of 5120 is 102.4.
    ['a zero of 105 µS/cm', 'zero-out-of-range', [dip(500, 101), dip(4000, 661)]],
    ['a zero of −104 µS/cm', 'zero-out-of-range', [dip(500, 79), dip(4000, 778)]],
    // A true 1413 taken for 1000: the slope alone, 1.036, would look well.
    [
      '1000 on the label and 1413 in the bottle',
      'zero-out-of-range',
      [dip(1000, 1413 / 20), dip(12_880, 644)],
      WIDE,
    ],
  ];
  const old = accepted(calibrate([dip(1413, 290)])).calibration;
  const frozen = JSON.stringify(old);

  it.each(refusals)('%s: %s', (_, why, dips, module = MODULE) => {
    for (const before of [old, null]) {
      const result = calibrate(dips, before, module);
      expect(result.kind === 'refused' ? result.refusal.why : 'accepted').toBe(why);
      expect(result.calibration).toBe(before);
    }
    expect(JSON.stringify(old)).toBe(frozen);
  });

  it('says what is wrong and what to do, each in a sentence of its own', () => {
    for (const [, , dips, module = MODULE] of refusals) {
      const result = calibrate(dips, null, module);
      if (result.kind !== 'refused') throw new Error('accepted');
      expect(result.refusal.says).toMatch(/^[A-Z\d].{15,}[.?]$/);
      expect(result.refusal.toDo).toMatch(/^[A-Z].{15,}[.?]$/);
    }
  });

  it.each<[CalibrationRequest['dips'], string]>([
    [[dip(1413, 283, 4.9)], '4.9 °C in the 1413 µS/cm standard; 5 to 40 °C is needed.'],
    [
      [dip(2000, [400, 400, 400, 400, 405])],
      'The counts in the 2000 µS/cm standard spread by 1.3 %; 1 % is the most.',
    ],
    [[dip(980, 400)], 'The cell would be 0.49 times its nominal value; 0.5 to 2 is possible.'],
    [[dip(500, 101), dip(4000, 661)], 'The module would mean 105 µS/cm by nothing; 102 is the most.'],
  ])('%j is told with its number', (dips, says) => {
    const result = calibrate(dips);
    expect(result.kind === 'refused' && result.refusal.says).toBe(says);
  });

  it('names the standards that fit the module: 500 to 5120 µS/cm alone, from 50 as the weaker of two', () => {
    const result = calibrate([dip(84, 17)]);
    expect(result.kind === 'refused' && result.refusal.says).toBe(
      'This module needs a standard of 500 to 5120 µS/cm; a second, weaker one may go down to 50.',
    );
  });
});
