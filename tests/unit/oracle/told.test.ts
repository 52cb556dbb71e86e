import { describe, expect, it } from 'vitest';
import type { RunRecord } from '../../../sim/oracle/record.ts';
import { canBeTold } from '../../../sim/oracle/told.ts';
import { quietRecord } from './quiet-record.ts';

const HOUR = 3_600_000;

/** Of a farm with a return sensor, whose old words come again from hour 4 to hour 6. */
const repeated = (undated: { readonly undated?: true }): RunRecord =>
  quietRecord({
    broken: [{ name: 'samples-repeated', fromMillis: 4 * HOUR, untilMillis: 6 * HOUR }],
    ...undated,
  });

describe('whether anything could have told that no water came', () => {
  const at = (hour: number): { readonly fromMillis: number; readonly untilMillis: number } => ({
    fromMillis: hour * HOUR,
    untilMillis: (hour + 0.5) * HOUR,
  });

  it('old words that come again tell nothing false where they bear their time', () => {
    expect(canBeTold(repeated({}), 0, at(5))).toBe(true);
  });

  it('old words without a time do, and up to three hours later; before and after that the return tells', () => {
    const record = repeated({ undated: true });
    expect([3, 5, 8, 9.5].map((hour) => canBeTold(record, 0, at(hour)))).toEqual([true, false, false, true]);
  });
});
