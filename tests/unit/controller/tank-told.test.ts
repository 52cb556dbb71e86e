import { describe, expect, it } from 'vitest';
import type { Farm } from '../../../src/farm/farm.ts';
import { farmWith } from '../../support/farm.ts';
import { at, seen, toldFrom, type Said } from './noon.ts';

/** The daily word is due at 12:30; floods and air raise no alarm that would keep it back. */
const farm = (evidence: Partial<Farm['evidence']>): Farm =>
  farmWith(
    [['herald'], { people: [], allWellAt: '12:30' }],
    [['temperatureRule', 'restPercentPerDegree'], 0],
    [
      ['evidence'],
      { returnFlow: 'none', pumpCurrent: false, relayReadBack: false, tankFloat: false, ...evidence },
    ],
    [['tank', 'topUp'], 'by-hand'],
  );

/** What the daily word says of the tank; undefined where no word came. */
const tankSentence = (told: Farm, said: readonly Said[]): string | null | undefined => {
  const shed = toldFrom(told);
  shed.tell(0, seen(0, ...said));
  shed.lookOn(29.75, () => said);
  const text = shed.tell(30, seen(30, ...said)).calls.find(({ kind }) => kind === 'all-well')?.text;
  return text === undefined ? undefined : (/Tank [^.]*\./.exec(text)?.[0] ?? null);
};

describe('the daily word', () => {
  it('is silent about a tank at which nothing looks', () => {
    expect(at(30).wall).toBe(Date.parse('2026-07-14T11:30Z'));
    expect(tankSentence(farm({}), [])).toBeNull();
  });

  it('says that the tank is well where a float says so, and nothing where the float is silent', () => {
    const floats = farm({ tankFloat: true });
    expect(tankSentence(floats, [{ channel: 'tank-float', low: false }])).toBe('Tank well.');
    expect(tankSentence(floats, [])).toBeNull();
  });
});
