import { describe, expect, it } from 'vitest';
import {
  ALLOWED_SECONDS,
  answered,
  hungParts,
  PARTS,
  type Answers,
} from '../../../firmware-host/heartbeat/health-table.ts';
import { second } from '../../support/moments.ts';

const ALL: Answers = PARTS.reduce<Answers>((answers, part) => answered(answers, part, second(0)), {});

describe('the health table', () => {
  it.each(PARTS)('names %s as hung one second after its time, and no sooner', (part) => {
    const late = PARTS.filter((one) => one !== part).reduce<Answers>(
      (answers, other) => answered(answers, other, second(ALLOWED_SECONDS[part])),
      ALL,
    );
    expect(hungParts(late, second(ALLOWED_SECONDS[part]))).toEqual([]);
    expect(hungParts(late, second(ALLOWED_SECONDS[part] + 1))).toEqual([
      { part, seconds: ALLOWED_SECONDS[part] + 1 },
    ]);
  });

  it('waits for no part that has never begun, and names the longest silence first', () => {
    expect(hungParts({}, second(1e6))).toEqual([]);
    const two = answered(answered({}, 'scheduler', second(50)), 'journal', second(0));
    expect(hungParts(two, second(100)).map(({ part }) => part)).toEqual(['journal', 'scheduler']);
  });
});
