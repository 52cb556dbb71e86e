import { describe, expect, it } from 'vitest';
import { stateSentence } from '../../../firmware-host/state-sentence.ts';
import { minute } from '../../support/moments.ts';
import { restingHost } from '../../support/resting-host.ts';

describe('the first sentence while the board is gone', () => {
  it.each([
    [{ kind: 'down', why: 'unplugged' }, 'NO BOARD for 3 min, about 83 min left.'],
    [
      { kind: 'down', why: 'unplugged', keeper: 'keeps' },
      'NO BOARD for 3 min, about 83 min left. With power it floods by its own table.',
    ],
  ] as const)('of %j', (link, says) => {
    expect(stateSentence(restingHost({ link, linkDownSince: minute(497) }), 'en')).toBe(says);
  });
});
