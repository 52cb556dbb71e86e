import { describe, expect, it } from 'vitest';
import type { ShedKind } from '../../../src/alarm/facts.ts';
import { cardsIn, STANDING } from './situations.ts';

const KINDS = Object.keys(STANDING) as readonly ShedKind[];

describe('hands and water', () => {
  /** What sends hands to water or wet metal, and what must be read before it. */
  const REACHING = /came off|filter|inlet|[Ff]ree|test the float|return/;
  it.each(KINDS.filter((kind) => REACHING.test(cardsIn(STANDING[kind])[0]!.firstAction)))(
    'the first action of %s says plug or socket before it sends hands in',
    (kind) => {
      const { firstAction } = cardsIn(STANDING[kind])[0]!;
      const guard = firstAction.search(
        /Pull the plug before you reach in, and put it back after|Keep off wet sockets/,
      );
      expect(guard).toBeGreaterThanOrEqual(0);
      expect(guard).toBeLessThan(firstAction.search(REACHING));
    },
  );

  it('such first actions are those of eight kinds', () => {
    const reaching = KINDS.filter((kind) => REACHING.test(cardsIn(STANDING[kind])[0]!.firstAction));
    expect(reaching).toEqual([
      'missed-flood',
      'weak-flow',
      'tank-low',
      'float-suspect',
      'tank-full',
      'water-on-floor',
      'flow-sensor-stuck',
      'return-lower',
    ]);
  });
});
