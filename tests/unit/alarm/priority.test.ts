import { describe, expect, it } from 'vitest';
import type { Situation } from '../../../src/alarm/situation.ts';
import { exampleFarm } from '../../support/farm.ts';
import { cardsIn, minutesAgo } from './situations.ts';

const prioritiesIn = (situation: Partial<Situation>): readonly string[] =>
  cardsIn(situation).map(({ priority }) => priority);

const runsOn = (why: string, minutes: number): Partial<Situation> => ({
  runsOn: { why, since: minutesAgo(minutes) },
});
const BY_HAND = 'it has drawn current past its open relay';

describe('a pump that runs on', () => {
  it('by a switch left by hand is called out after a third of longest-on, 15 of 45 min, and not before', () => {
    expect(exampleFarm.pump.longestOnMinutes).toBe(45);
    expect(prioritiesIn(runsOn(BY_HAND, 2))).toEqual(['medium']);
    expect(prioritiesIn(runsOn(BY_HAND, 14.9))).toEqual(['medium']);
    expect(prioritiesIn(runsOn(BY_HAND, 15))).toEqual(['high']);
    expect(prioritiesIn(runsOn(BY_HAND, 40))).toEqual(['high']);
  });

  it('by its own relay is high at once', () => {
    expect(prioritiesIn(runsOn('its relay has been closed', 0))).toEqual(['high']);
    expect(prioritiesIn(runsOn('it has drawn current', 2))).toEqual(['high']);
  });

  it('by hand does not make light of another alarm that stands beside it', () => {
    const both = { ...runsOn(BY_HAND, 2), mainsLost: { since: minutesAgo(2), against: null } };
    const cards = cardsIn(both).map(({ kind, priority }) => [kind, priority]);
    expect(cards).toContainEqual(['mains-lost', 'high']);
    expect(cards).toContainEqual(['pump-runs-on', 'medium']);
  });
});

describe('a tank that falls', () => {
  const fall = (isSoonLow: boolean): Partial<Situation> => ({
    tankFall: { beyondLitresPerHour: 48, lowInMinutes: 191, isSoonLow },
  });

  it('is high where it is soon too low for a whole flood, else medium', () => {
    expect(prioritiesIn(fall(true))).toEqual(['high']);
    expect(prioritiesIn(fall(false))).toEqual(['medium']);
  });

  it('and is soon too low makes no other alarm graver', () => {
    const cards = cardsIn({ ...fall(true), brimfulLitres: 597.6, relayChattersSince: minutesAgo(2) });
    expect(cards.map(({ kind, priority }) => [kind, priority])).toEqual(
      expect.arrayContaining([
        ['tank-full', 'low'],
        ['relay-chatters', 'medium'],
      ]),
    );
  });
});
