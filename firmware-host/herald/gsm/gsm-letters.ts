/**
 * 3GPP TS 23.038, 6.2.1, the default alphabet: the place of a letter is its number. Left out, as a space, is 1B (escape)
 * alone.
 */
const ALPHABET =
  '@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞ\u001bÆæßÉ !"#¤%&\'()*+,-./0123456789:;<=>?¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà';

/** One text holds 140 bytes, which are 160 letters of 7 bits (3GPP TS 23.040, 3.1). */
export const TEXT_LETTERS_MAX = 160;

/**
 * In text mode 1A ends the words and 1B throws them away (3GPP TS 27.005, 3.5.1); a bare CR tells nothing; 11 and 13 stop
 * and start the line where a modem keeps to them (V.250, 6.2.12).
 */
const FORBIDDEN: readonly number[] = [0x1a, 0x1b, 0x0d, 0x11, 0x13];

const codeOf = (letter: string): number => {
  if (letter === '_') return ALPHABET.indexOf('-');
  const place = ALPHABET.indexOf(letter);
  if (place >= 0 && !FORBIDDEN.includes(place)) return place;
  // ã → a: whatever the alphabet lacks is told by its plain letter, and by a question mark where it has none.
  const plain = ALPHABET.indexOf(letter.normalize('NFD').charAt(0));
  return plain >= 0 && !FORBIDDEN.includes(plain) ? plain : ALPHABET.indexOf('?');
};

const ELLIPSIS = '...';

/** The bytes of one text in the alphabet of `AT+CSCS="GSM"`: 160 at most, cut behind a word. */
export const textBytes = (text: string): Uint8Array => {
  const letters = Array.from(text.replace(/\s+/g, ' ').trim());
  if (letters.length <= TEXT_LETTERS_MAX) return Uint8Array.from(letters, codeOf);
  const room = letters.slice(0, TEXT_LETTERS_MAX - ELLIPSIS.length).join('');
  const cut = room.lastIndexOf(' ');
  const kept = cut > TEXT_LETTERS_MAX / 2 ? room.slice(0, cut) : room;
  return Uint8Array.from(Array.from(`${kept}${ELLIPSIS}`), codeOf);
};

/**
 * A phone that writes in UCS-2, as all do with an emoji or a curly quote, comes as four hexadecimal digits a letter (3GPP TS
 * 27.005, 3.1, `<data>`). A person who sends such digits means no word that is understood here.
 */
const UCS2 = /^(?:[0-9A-Fa-f]{4})+$/;

/** The letters behind the body of a text that came in. */
export const lettersOf = (body: string): string =>
  UCS2.test(body)
    ? Buffer.from(body, 'hex').swap16().toString('utf16le')
    : Array.from(body, (letter) => ALPHABET.charAt(letter.charCodeAt(0)) || letter).join('');
