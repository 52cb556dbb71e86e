import { describe, expect, it } from 'vitest';
import { anyTask } from '../../../firmware-host/campaign/byte-task.ts';
import { breachText, sumOf } from '../../../sim/campaign/sum.ts';

describe('a seed whose run throws', () => {
  it.each([
    [
      'at once',
      (): never => {
        throw new Error('no item 3 in a list of 3');
      },
    ],
    ['later', () => Promise.reject(new Error('no item 3 in a list of 3'))],
  ])(
    '%s is a breach of that seed, with what is broken in it, the error and one command that runs it again',
    async (_, work) => {
      const result = await anyTask({ seed: 3, days: 3, twice: false, pair: ['hold'] }, work);
      expect(result.broken).toContain('hold');
      expect(sumOf([result])).toMatchObject({ seeds: 1, breached: 1 });
      const lines = breachText(result).split('\n');
      expect(lines[1]).toBe('  thrown: Error: no item 3 in a list of 3');
      expect(lines.at(-1)).toBe('  again: npm run campaign -- --seed 3 --days 3 --pair hold');
    },
  );

  it('already when it is drawn is one too', async () => {
    const result = await anyTask({ seed: 3, days: Number.NaN, twice: false });
    expect(result.breaches.map(({ invariant }) => invariant)).toEqual(['thrown']);
  });
});
