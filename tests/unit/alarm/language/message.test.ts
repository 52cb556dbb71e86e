import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Card } from '../../../../src/alarm/card.ts';
import { gsm7Places, toGsm7 } from '../../../../src/alarm/language/gsm7.ts';
import { LANGUAGES } from '../../../../src/alarm/language/languages.ts';
import { messageText } from '../../../../src/alarm/language/message.ts';
import { LANGUAGES_SPOKEN } from '../../../../src/farm/languages-spoken.ts';
import { exampleFarm } from '../../../support/farm.ts';
import { cardsIn, CLUE } from '../situations.ts';
import { everyCard } from './every-card.ts';

const FARM = 'Quinta da Ribeira Al';
const BENCH = 'Bancada junto ao mur';
/** One text in the 7-bit alphabet: 140 octets, 3GPP TS 23.040. */
const PLACES = 160;

const missed = (farm: string, bench: string, minutes: number): Card => {
  const [card] = cardsIn({ missed: CLUE, left: () => ({ minutes, bench }) }, { ...exampleFarm, farm });
  return card!;
};

/** The card without the pace of the buckets, which a message has only where the rest leaves room. */
const bare = (card: Card): Card =>
  card.facts !== undefined && 'bucket' in card.facts
    ? { ...card, facts: { ...card.facts, bucket: null } }
    : card;

describe.each(LANGUAGES_SPOKEN)('a text message in %s', (code) => {
  const language = LANGUAGES[code];
  const cards = everyCard({ farm: FARM, language: code }, BENCH);

  it('holds every alarm whole in 160 places, with names of 20 letters for farm and bench', () => {
    expect(cards.length).toBeGreaterThan(150);
    const shortened = cards.filter(
      ({ card }) => !messageText(card, language, PLACES).startsWith(messageText(bare(card), language, 1000)),
    );
    expect(shortened.map(({ name }) => name)).toEqual([]);
    expect(cards.filter(({ card }) => gsm7Places(messageText(card, language)) > PLACES)).toEqual([]);
  });

  it('begins with the farm, and tells the bench and its wilt time before the action', () => {
    for (const { name, card } of cards) {
      const text = messageText(card, language);
      expect(text, name).toMatch(/^Quinta da Ribeira Al: \S/);
      const wilt = card.facts !== undefined && 'wilt' in card.facts ? card.facts.wilt : null;
      if (wilt?.kind !== 'ahead') continue;
      expect(text, name).toContain(` ${BENCH} `);
      expect(text, name).toMatch(wilt.from === null ? / 1199 min\. [^.]/ : / 14:40\. [^.]/);
    }
  });

  it('tells the pace of the buckets after all the rest, whole or not at all', () => {
    const lost = everyCard({ farm: 'Ribeira', language: code }, 'Bench 2').filter(
      ({ name }) => name === 'mains lost, from 14:40' || name === 'dry, float low, from 14:40',
    );
    expect(lost).toHaveLength(2);
    for (const { card } of lost) {
      const [whole, without] = [card, bare(card)].map((one) => messageText(one, language, 1000));
      expect(whole!.startsWith(`${without!} `)).toBe(true);
      expect(whole!.slice(without!.length)).toMatch(/Bench 2 ?: 3[.,]5 L\/.*15 min\.$/);
      expect(messageText(card, language, gsm7Places(whole!))).toBe(whole);
      expect(messageText(card, language, gsm7Places(whole!) - 1)).toBe(without);
    }
  });

  it('says of a board that may flood by itself that the bench wilts only if it does not', () => {
    const told = (name: string): string =>
      messageText(cards.find((one) => one.name === name)!.card, language);
    const condition = /\. (If not, |Se nao, |Si no, |Sinon )Bancada/;
    expect(told('board silent, keeps, from 14:40, plain-timer')).toMatch(condition);
    expect(told('dry, board keeps, from 14:40')).toMatch(condition);
    expect(told('board silent, from 14:40, plain-timer')).not.toMatch(condition);
    expect(told('dry, board, from 14:40')).not.toMatch(condition);
  });

  it('keeps letters, places and wilt time for any names and any room', () => {
    const names = fc
      .string({ unit: 'binary', minLength: 1, maxLength: 60 })
      .filter((name) => !toGsm7(name).includes('14'));
    fc.assert(
      fc.property(names, names, fc.integer({ min: 0, max: 200 }), (farm, bench, places) => {
        const text = messageText(missed(farm, bench, 43), language, places);
        expect(gsm7Places(text)).toBeLessThanOrEqual(places);
        // Whole, or where it has no room even alone, not at all.
        if (places >= 60 || text.includes('14')) expect(text).toContain('14:40.');
      }),
      { numRuns: 500 },
    );
  });
});

describe('a text message that does not fit', () => {
  const long = 'The long bench by the old southern wall.';
  it('shortens names of 40 letters first, to 20 at least', () => {
    expect(messageText(missed(long, long, 43), LANGUAGES.en)).toBe(
      'The long bench by th: Pump ran, no water since 13:42. The long bench by the old southern may wilt from 14:40. Pull the plug, then look at filter, inlet, pipes.',
    );
  });

  it('then the action, from its end, so that the plug stays', () => {
    expect(messageText(missed(long, long, 43), LANGUAGES.en, 120)).toBe(
      'The long bench by th: Pump ran, no water since 13:42. The long bench by th may wilt from 14:40. Pull the plug, then.',
    );
  });

  it('then leaves the action out', () => {
    expect(messageText(missed(long, long, 43), LANGUAGES.en, 100)).toBe(
      'The long bench by th: Pump ran, no water since 13:42. The long bench by th may wilt from 14:40.',
    );
  });

  it('and at last tells nothing but the wilt time', () => {
    expect(messageText(missed(long, long, 43), LANGUAGES.en, 30)).toBe('The long may wilt from 14:40.');
  });

  it('counts a euro sign and a bracket in a name as two', () => {
    const text = messageText(missed('[€]'.repeat(6), 'Bench 2', 43), LANGUAGES.en, 1000);
    expect([text.length, gsm7Places(text)]).toEqual([text.length, text.length + 18]);
  });

  it('keeps the whole sentence on wilting of a card that has sentences only', () => {
    const { kind, priority, cause, consequence, firstAction } = missed('Hillside', 'Bench 2', 43);
    const text = messageText({ kind, priority, cause, consequence, firstAction }, LANGUAGES.en);
    expect(text).toBe(
      'Pump ran, no water came back since 13:42. Bench 2 may begin to wilt from 14:40 (about 43 min left). Pull the plug before you reach in, and put it back after.',
    );
    expect(toGsm7(text)).toBe(text);
  });
});

describe('a text message with less and less room', () => {
  const named = (name: string): Card =>
    everyCard({ language: 'en', farm: 'Ribeira' }, 'Bench 2').find((one) => one.name === name)!.card;
  const inRoom = (card: Card, places: number): string => messageText(card, LANGUAGES.en, places);

  it.each([
    [
      119,
      'Ribeira: Pump ran, no water since 13:42. Bench 2 may wilt from 14:40. Pull the plug, then look at filter, inlet, pipes.',
    ],
    [90, 'Ribeira: Pump ran, no water since 13:42. Bench 2 may wilt from 14:40. Pull the plug, then.'],
    // No comma before the full stop; and from twelve letters on an action is told.
    [85, 'Ribeira: Pump ran, no water since 13:42. Bench 2 may wilt from 14:40. Pull the plug.'],
    [83, 'Ribeira: Pump ran, no water since 13:42. Bench 2 may wilt from 14:40. Pull the.'],
    [82, 'Ribeira: Pump ran, no water since 13:42. Bench 2 may wilt from 14:40.'],
    [69, 'Ribeira: Pump ran, no water since 13:42. Bench 2 may wilt from 14:40.'],
    [68, 'Ribeira: Pump ran, no water since. Bench 2 may wilt from 14:40.'],
    [50, 'Ribeira: Pump ran. Bench 2 may wilt from 14:40.'],
    [37, 'Ribeira: Bench 2 may wilt from 14:40.'],
    [36, 'Bench 2 may wilt from 14:40.'],
    [22, 'B may wilt from 14:40.'],
    [21, ' may wilt from 14:40.'],
    [20, 'Ribeira: Pump ran, n'],
  ])('of %d places keeps the wilt time longest', (places, text) => {
    expect(inRoom(named('missed, pump ran, from 14:40'), places)).toBe(text);
  });

  it.each([
    [
      103,
      'Ribeira: Weak flood: return flow 13 L/min, usually 40. Pull the plug, clean the filter, see the inlets.',
    ],
    [70, 'Ribeira: Weak flood: return flow 13 L/min, usually 40. Pull the plug.'],
    [53, 'Ribeira: Weak flood: return flow 13 L/min, usually.'],
    [20, 'Ribeira: Weak.'],
    [8, 'Ribeira:'],
    [5, 'Ribei'],
  ])('of %d places, about no wilting, keeps what was seen longer than the action', (places, text) => {
    expect(inRoom(named('weak return, from 14:40'), places)).toBe(text);
  });

  it.each([
    [
      400,
      'Weak flood: return flow 13 L/min, usually 40. Pull the plug before you reach in, and put it back after. Clean the filter, then look for blocked inlets.',
    ],
    [60, 'Weak flood: return flow 13 L/min, usually 40. Pull the plug.'],
    [40, 'Weak flood: return flow 13 L/min.'],
  ])('of %d places is made from its sentences where a card has no more', (places, text) => {
    const { kind, priority, cause, consequence, firstAction } = named('weak return, from 14:40');
    expect(inRoom({ kind, priority, cause, consequence, firstAction }, places)).toBe(text);
  });
});
