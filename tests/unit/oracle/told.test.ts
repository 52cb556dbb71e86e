import { describe, expect, it } from 'vitest';
import type { RunRecord } from '../../../sim/oracle/record.ts';
import { canBeTold } from '../../../sim/oracle/told.ts';
import type { Broken } from '../../../sim/oracle/record.ts';
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

  describe('of a tank that runs dry, beside no return sensor', () => {
    const fault = (name: Broken['name'], channel?: Broken['channel']): Broken => ({
      name,
      fromMillis: 4 * HOUR,
      untilMillis: 6 * HOUR,
      ...(channel === undefined ? {} : { channel }),
    });
    const told = (broken: readonly Broken[], fitted: Partial<RunRecord['farm']['evidence']>): boolean => {
      const record = quietRecord({ broken });
      const { farm } = record;
      const evidence = { ...farm.evidence, returnFlow: 'none', tankFloat: false, tankLevel: false } as const;
      return canBeTold({ ...record, farm: { ...farm, evidence: { ...evidence, ...fitted } } }, 0, at(5));
    };
    it.each([
      ['nothing fitted tells', [fault('leak')], {}, false],
      ['a float tells a leak', [fault('leak')], { tankFloat: true }, true],
      ['a level sensor tells a leak', [fault('leak')], { tankLevel: true }, true],
      ['a level sensor tells a top-up that stops', [fault('top-up-stopped')], { tankLevel: true }, true],
      [
        'a level sensor that lies tells nothing',
        [fault('leak'), fault('sensor-stuck', 'tank-level')],
        { tankLevel: true },
        false,
      ],
      [
        'a float beside it still does',
        [fault('leak'), fault('sensor-stuck', 'tank-level')],
        { tankLevel: true, tankFloat: true },
        true,
      ],
      [
        'neither tells a pump that is dead',
        [fault('pump-dead')],
        { tankLevel: true, tankFloat: true },
        false,
      ],
    ] as const)('%s', (_, broken, fitted, expected) => {
      expect(told(broken, fitted)).toBe(expected);
    });
  });
});
