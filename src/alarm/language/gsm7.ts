/**
 * The letters of a text message: the GSM 7 bit default alphabet and its extension table, 3GPP TS 23.038 (release 17),
 * clauses 6.2.1 and 6.2.1.1. A message with one letter more is sent in UCS2 and holds 70 instead of 160.
 */

/** Clause 6.2.1, in the order of its codes 0x00 to 0x7F, without 0x1B, which leads to the extension table. */
const BASIC = new Set(
  '@£$¥èéùìòÇ\nØø\rÅå' +
    'Δ_ΦΓΛΩΠΨΣΘΞÆæßÉ' +
    ' !"#¤%&\'()*+,-./' +
    '0123456789:;<=>?' +
    '¡ABCDEFGHIJKLMNO' +
    'PQRSTUVWXYZÄÖÑÜ§' +
    '¿abcdefghijklmno' +
    'pqrstuvwxyzäöñüà',
);

/** Clause 6.2.1.1: each takes two places. The form feed of that table is no letter and is left out. */
const EXTENSION = new Set('^{}\\[~]|€');

/** What a message has no letter for, and Unicode does not take apart into letter and accent. */
const WRITTEN_AS: Readonly<Record<string, string>> = {
  '“': '"',
  '”': '"',
  '„': '"',
  '«': '"',
  '»': '"',
  '‘': "'",
  '’': "'",
  '‚': "'",
  '‹': "'",
  '›': "'",
  '`': "'",
  '´': "'",
  '–': '-',
  '—': '-',
  '−': '-',
  '‐': '-',
  '‑': '-',
  '·': '.',
  '•': '-',
  '×': 'x',
  '÷': '/',
  '⁄': '/',
  '°': '',
  º: 'o',
  ª: 'a',
  œ: 'oe',
  Œ: 'OE',
  ł: 'l',
  Ł: 'L',
  đ: 'd',
  Đ: 'D',
  ı: 'i',
  µ: 'u',
  '©': '(c)',
  '®': '(r)',
};

/** For what no letter comes near. */
const UNKNOWN = '?';
const ACCENT = /^\p{M}$/u;
/** Line ends, tabs and other controls: a message is one line, and a modem takes some of them for its own. */
const BLANK = /^[\s\p{Cc}\p{Z}]$/u;
/** Marks that nobody sees: joiners, direction marks, soft hyphens. */
const UNSEEN = /^\p{Cf}$/u;

const isLetter = (letter: string): boolean => BASIC.has(letter) || EXTENSION.has(letter);

const plain = (letter: string): string => {
  if (BLANK.test(letter)) return ' ';
  if (isLetter(letter)) return letter;
  if (UNSEEN.test(letter)) return '';
  const written = WRITTEN_AS[letter];
  if (written !== undefined) return written;
  // Taken apart, ã is a and a tilde, and ½ is 1⁄2.
  const parts = Array.from(letter.normalize('NFKD')).filter((part) => !ACCENT.test(part));
  return parts.map((part) => (isLetter(part) ? part : (WRITTEN_AS[part] ?? UNKNOWN))).join('');
};

/** The text in letters that a message has, each as near as it gets; runs of blanks are one. */
export const toGsm7 = (text: string): string =>
  Array.from(text.normalize('NFC'), plain).join('').replace(/ {2,}/g, ' ').trim();

/** How many of the 160 places the text takes. @throws RangeError on a letter that no message has */
export const gsm7Places = (text: string): number => {
  let places = 0;
  for (const letter of text) {
    if (!isLetter(letter)) throw new RangeError(`no letter of a text message: ${JSON.stringify(letter)}`);
    places += EXTENSION.has(letter) ? 2 : 1;
  }
  return places;
};

/** The longest beginning that takes no more than so many places. */
export const cut = (text: string, places: number): string => {
  let kept = '';
  let taken = 0;
  for (const letter of text) {
    taken += gsm7Places(letter);
    if (taken > places) break;
    kept += letter;
  }
  return kept.trimEnd();
};

/** The same, ending with a whole word, or nothing where not one fits. */
export const cutAtWord = (text: string, places: number): string => {
  const kept = cut(text, places);
  if (kept.length === text.length) return kept;
  const end = text[kept.length] === ' ' ? kept.length : kept.lastIndexOf(' ');
  return kept.slice(0, Math.max(0, end)).replace(/[\s,;:]+$/, '');
};
