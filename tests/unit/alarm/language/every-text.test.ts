import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cardText, type Card } from '../../../../src/alarm/card.ts';
import { gsm7Places } from '../../../../src/alarm/language/gsm7.ts';
import { LANGUAGES } from '../../../../src/alarm/language/languages.ts';
import { messageText } from '../../../../src/alarm/language/message.ts';
import { STAKES } from '../../../../src/alarm/stakes.ts';
import { LANGUAGES_SPOKEN, type LanguageCode } from '../../../../src/farm/languages-spoken.ts';
import { everyCard } from './every-card.ts';

const cardsOf = (language: LanguageCode): ReadonlyMap<string, Card> =>
  new Map(everyCard({ language, farm: 'Ribeira' }, 'Bench 2').map(({ name, card }) => [name, card] as const));

/** Of what is left, and by which clock, two kinds of alarms tell for all. */
const IN_THE_TABLE = /, from 14:40|^(?:missed, pump ran|tank falls),/;

const tableOf = (code: LanguageCode): string =>
  [...cardsOf(code)]
    .filter(([name]) => IN_THE_TABLE.test(name))
    .map(([name, card]) => {
      const message = messageText(card, LANGUAGES[code]);
      return `${name}\n${cardText(card)}\n[${gsm7Places(message)}] ${message}\n`;
    })
    .join('\n');

describe.each(LANGUAGES_SPOKEN)('the alarms in %s', (code) => {
  it('are told word for word as in their table: in full, and as a message with the places that it takes', async () => {
    // A table that is not there would be written anew, and hold nothing.
    expect(existsSync(new URL(`texts/${code}.txt`, import.meta.url))).toBe(true);
    await expect(tableOf(code)).toMatchFileSnapshot(`texts/${code}.txt`);
  });

  it('are in the table, every kind', () => {
    const kinds = new Set([...cardsOf(code).values()].map(({ kind }) => kind));
    expect([...kinds].sort()).toEqual(Object.keys(STAKES).sort());
  });
});

describe.each(['pt', 'es', 'fr'] as const)('the alarms in %s', (code) => {
  const english = cardsOf('en');

  it('have no sentence in common with English', () => {
    for (const [name, card] of cardsOf(code)) {
      const { cause, consequence, firstAction } = english.get(name)!;
      expect(card.cause, name).not.toBe(cause);
      expect(card.firstAction, name).not.toBe(firstAction);
      if (consequence !== null) expect(card.consequence, name).not.toBe(consequence);
    }
  });
});

/** Words by which each language says them, with and without accents. */
const PLUG = {
  en: /[Pp]ull (?:the|its) plug/,
  pt: /Tire|tire/,
  es: /[Dd]esench/,
  fr: /[Dd][ée]branche/,
} as const;
const HANDS = {
  en: /filter|inlet|free|mend the sensor|test the float|came off/,
  pt: /filtro|entrada|solte|experimente|tubo solto/i,
  es: /filtro|entrada|suelte|pruebe|tubo suelto/i,
  fr: /filtre|entrée|libérez|essayez|tuyau défait/i,
} as const;
const MAINS = {
  en: /[Ff]use|RCD/,
  pt: /diferencial|[Ff]us[ií]vel/,
  es: /diferencial|[Ff]usible/,
  fr: /diff[ée]rentiel|Fusible/i,
} as const;
const LICENSED = {
  en: /licensed person/,
  pt: /eletricista/,
  es: /electricista/,
  fr: /[ée]lectricien/,
} as const;

describe.each(LANGUAGES_SPOKEN)('hands and mains in %s', (code) => {
  const cards = [...cardsOf(code)].filter(([, { kind }]) => kind !== 'water-on-floor');
  const briefs = cards.map(([name, card]) => {
    const [, act = ''] = messageText(card, LANGUAGES[code]).split(/: (.*)/s);
    return { name, act };
  });

  it('send no hand to filter, inlet, float or pipe in a text message without the plug before it', () => {
    const reaching = briefs.filter(({ act }) => HANDS[code].test(act));
    expect(reaching.length).toBeGreaterThan(20);
    const bare = reaching.filter(
      ({ act }) => !(act.search(PLUG[code]) >= 0 && act.search(PLUG[code]) <= act.search(HANDS[code])),
    );
    expect(bare.map(({ name }) => name)).toEqual([]);
  });

  it('send nobody to fuse or residual-current device without naming who alone may work on the mains', () => {
    const texts = [...cards.map(([, card]) => cardText(card)), ...briefs.map(({ act }) => act)];
    const electric = texts.filter((text) => MAINS[code].test(text));
    expect(electric.length).toBeGreaterThan(10);
    expect(electric.filter((text) => !LICENSED[code].test(text))).toEqual([]);
  });
});
