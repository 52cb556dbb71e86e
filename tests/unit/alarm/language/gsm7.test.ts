import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gsm7Places, toGsm7 } from '../../../../src/alarm/language/gsm7.ts';

/** 3GPP TS 23.038, clause 6.2.1: the default alphabet, column by column as it is printed there (b7 b6 b5 = 0 … 7). */
const COLUMNS = [
  '@£$¥èéùìòÇ\nØø\rÅå',
  'Δ_ΦΓΛΩΠΨΣΘΞ\u001bÆæßÉ',
  ' !"#¤%&\'()*+,-./',
  '0123456789:;<=>?',
  '¡ABCDEFGHIJKLMNO',
  'PQRSTUVWXYZÄÖÑÜ§',
  '¿abcdefghijklmno',
  'pqrstuvwxyzäöñüà',
];
/** The same, clause 6.2.1.1: the extension table, by the code that follows the escape. */
const EXTENSION: Readonly<Record<number, string>> = {
  0x14: '^',
  0x28: '{',
  0x29: '}',
  0x2f: '\\',
  0x3c: '[',
  0x3d: '~',
  0x3e: ']',
  0x40: '|',
  0x65: '€',
};
const SENT = new Set(Array.from(COLUMNS.join('')).filter((letter) => !'\n\r\u001b'.includes(letter)));

describe('the letters of a text message', () => {
  it('are the 125 of TS 23.038 that stand on one line, one place each', () => {
    const letters = [...SENT];
    expect(letters).toHaveLength(125);
    expect(letters.filter((letter) => letter !== ' ' && toGsm7(letter) !== letter)).toEqual([]);
    expect(letters.map(gsm7Places)).toEqual(letters.map(() => 1));
  });

  it('and the 9 of its extension table, two places each', () => {
    const letters = Object.values(EXTENSION);
    expect(letters.map(toGsm7)).toEqual(letters);
    expect(letters.map(gsm7Places)).toEqual([2, 2, 2, 2, 2, 2, 2, 2, 2]);
  });

  it.each([
    ['João não põe à mão a lição às três', 'Joao nao poe à mao a licao às tres'],
    ['é è ù ì ò Ç Ø Å ä ö ñ ü à', 'é è ù ì ò Ç Ø Å ä ö ñ ü à'],
    ['á í ó ú ã õ â ê ô ç', 'a i o u a o a e o c'],
    ['cœur, peut-être, Noël, forêt, façade', 'coeur, peut-etre, Noel, foret, facade'],
    ['“mesa” ‘dos’ «tres» d’eau…', '"mesa" \'dos\' "tres" d\'eau...'],
    ['13:42–14:40 — 36 °C', '13:42-14:40 - 36 C'],
    ['¿Enchufada? ¡Agua!', '¿Enchufada? ¡Agua!'],
    ['line\r\nbreak\tand\u00a0blanks', 'line break and blanks'],
    ['soft\u00adhyphen, zero\u200bwidth', 'softhyphen, zerowidth'],
    ['½ L', '1/2 L'],
    ['e\u0301 taken apart', 'é taken apart'],
    ['水 🌱 \ud800', '? ? ?'],
  ])('%j is written %j', (text, written) => {
    expect(toGsm7(text)).toBe(written);
  });

  it('refuses to count a letter that no message has', () => {
    expect(() => gsm7Places('não')).toThrow(/no letter of a text message: "ã"/);
  });

  it('are all that any string is written in, and what is written so stays so', () => {
    const allowed = new Set([...SENT, ...Object.values(EXTENSION)]);
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (text) => {
        const written = toGsm7(text);
        expect(Array.from(written).filter((letter) => !allowed.has(letter))).toEqual([]);
        expect(toGsm7(written)).toBe(written);
      }),
      { numRuns: 2000 },
    );
  });
});
