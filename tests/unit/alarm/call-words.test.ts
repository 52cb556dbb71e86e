import { describe, expect, it } from 'vitest';
import { ALARM_NAMES, callMessage, callText, type CallFacts } from '../../../src/alarm/call-words.ts';
import { soundCard } from '../../../src/alarm/kept-card.ts';
import { gsm7Places, toGsm7 } from '../../../src/alarm/language/gsm7.ts';
import { LANGUAGES } from '../../../src/alarm/language/languages.ts';
import type { AlarmKind, Card } from '../../../src/alarm/card.ts';
import { LANGUAGES_SPOKEN } from '../../../src/farm/languages-spoken.ts';
import { everyCard } from './language/every-card.ts';
import { KINDS } from './made-alarms.ts';

const CALLS = ['raised', 'again', 'escalated', 'returned'] as const;
const LONG = 'Quinta da Ribeira de Alem e de Aquem Mar';
const cardNamed = (language: (typeof LANGUAGES_SPOKEN)[number], name: string): Card =>
  everyCard({ language, farm: 'Ribeira' }, 'Bench 2').find((one) => one.name === name)!.card;
const facts = (card: Card, told: Partial<CallFacts> = {}): CallFacts => ({
  kind: 'raised',
  card,
  also: [],
  over: [],
  first: null,
  comesAndGoes: 'no',
  ...told,
});

/** Each kind of call about a missed flood, with what else it may have to say. */
const TOLD = {
  en: [
    'Still so: ',
    'Nobody has answered yet: ',
    'Over: missed flood. Still so: tank low, long hold.',
    ' It comes and goes. With it: tank low, long hold. Over: weak flood. First came: tank low.',
    'Over: Ribeira: missed flood. Still so: tank low, long hold.',
  ],
  pt: [
    'Continua: ',
    'Ainda ninguém respondeu: ',
    'Acabou: rega falhada. Continua: depósito baixo, paragem longa.',
    ' Vai e volta. Também: depósito baixo, paragem longa. Acabou: rega fraca. Começou por: depósito baixo.',
    'Acabou: Ribeira: rega falhada. Continua: deposito baixo, paragem longa.',
  ],
  es: [
    'Sigue: ',
    'Nadie ha respondido aún: ',
    'Terminado: riego fallido. Sigue: depósito bajo, parada larga.',
    ' Va y viene. Además: depósito bajo, parada larga. Terminado: riego flojo. Empezó por: depósito bajo.',
    'Terminado: Ribeira: riego fallido. Sigue: deposito bajo, parada larga.',
  ],
  fr: [
    'Toujours : ',
    "Personne n'a encore répondu : ",
    'Terminé : arrosage manqué. Toujours : cuve basse, arrêt long.',
    " Cela va et vient. Avec cela : cuve basse, arrêt long. Terminé : arrosage faible. D'abord : cuve basse.",
    'Terminé : Ribeira: arrosage manqué. Toujours : cuve basse, arret long.',
  ],
} as const;

describe.each(LANGUAGES_SPOKEN)('a call in %s', (code) => {
  const language = LANGUAGES[code];
  const card = cardNamed(code, 'missed, pump ran, from 14:40');
  const also: readonly AlarmKind[] = ['tank-low', 'hold-is-long'];
  const whole = callText(facts(card), language);
  const [again, escalated, over, tails, overMessage] = TOLD[code];

  it('opens by its kind, and tells in full what else it stands for', () => {
    expect(callText(facts(card, { kind: 'again' }), language)).toBe(`${again}${whole}`);
    expect(callText(facts(card, { kind: 'escalated' }), language)).toBe(`${escalated}${whole}`);
    expect(callText(facts(card, { kind: 'returned', also }), language)).toBe(over);
    const more = { also, over: ['weak-flow'], first: 'tank-low', comesAndGoes: 'yes' } as const;
    expect(callText(facts(card, more), language)).toBe(`${whole}${tails}`);
    expect(callMessage(facts(card, { kind: 'returned', also }), language)).toBe(overMessage);
  });

  it('is a message of at most 160 places for every card, kind of call and number of other alarms', () => {
    const cards = everyCard({ language: code, farm: LONG }, LONG);
    for (const { name, card: one } of cards) {
      for (const kind of CALLS) {
        for (const others of [[], ['tank-low'], KINDS] as const) {
          const message = callMessage(facts(one, { kind, also: others }), language);
          expect(gsm7Places(message), name).toBeLessThanOrEqual(160);
          expect(message.startsWith(toGsm7(language.calls.briefOpenings[kind])), name).toBe(true);
          // Nobody may take it for all there is.
          if (others.length > 1) expect(message.endsWith(` (+${KINDS.length})`), name).toBe(true);
        }
      }
    }
  });

  it('keeps the wilt time in the message, whatever its opening and whatever else stands', () => {
    for (const kind of ['raised', 'again', 'escalated'] as const) {
      expect(callMessage(facts(card, { kind, also: KINDS }), language)).toContain('14:40.');
    }
  });

  it('names every kind of alarm in its own words', () => {
    const names = KINDS.map((kind) => language.calls.names[kind]);
    expect(new Set(names).size).toBe(KINDS.length);
    if (code !== 'en') expect(names.filter((name) => Object.values(ALARM_NAMES).includes(name))).toEqual([]);
  });

  it('keeps the facts of every card over a restart, for they tell its very sentences', () => {
    for (const { name, card: one } of everyCard({ language: code }, 'Bench 2')) {
      expect(soundCard(one), name).toEqual(one);
    }
  });
});

describe('facts that were kept by another version', () => {
  const card = cardNamed('en', 'mains lost, from 14:40');
  it.each([
    ['cause', { cause: 'The mains are lost.' }],
    ['consequence', { consequence: null }],
    ['first action', { firstAction: 'Look.' }],
  ])('are left out where the %s is another than they tell', (_, other) => {
    const { facts: told, ...words } = { ...card, ...other };
    expect(told).toBeDefined();
    expect(soundCard({ ...card, ...other })).toEqual(words);
  });

  it('are not missed where the card never had any', () => {
    const { kind, priority, cause, consequence, firstAction } = card;
    const words = { kind, priority, cause, consequence, firstAction };
    expect(soundCard(words)).toStrictEqual(words);
    expect(callMessage(facts(words, { kind: 'returned' }), LANGUAGES.en)).toBe('Over: mains lost.');
  });

  it.each([
    ['of a kind that is not known', { kind: 'of-tomorrow', farm: 'Ribeira' }],
    ['of a kind that every object has', { kind: 'constructor', farm: 'Ribeira' }],
    ['of another alarm', { ...cardNamed('en', 'weak return, from 14:40').facts }],
    ['without buckets', { ...card.facts, bucket: undefined }],
    ['without a wilt time', { ...card.facts, wilt: undefined }],
    ['without a farm', { ...card.facts, farm: undefined }],
    ['that are a number', 7],
    ['that are nothing', null],
  ])('%s are left out, and the message is made from the sentences', (_, other) => {
    const kept = soundCard({ ...card, facts: other as unknown as NonNullable<Card['facts']> });
    expect(kept).not.toHaveProperty('facts');
    expect(callMessage(facts(kept, { kind: 'again' }), LANGUAGES.en)).toMatch(
      /^Still: The mains have been lost since 13:55.*14:40/,
    );
  });
});
