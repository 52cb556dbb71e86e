/**
 * What the numbers of a modem mean, and what to do. Texts: 3GPP TS 27.005, 3.2.5, whose numbers up to 127 are those of
 * 3GPP TS 24.011, Annex E-2. Equipment: 3GPP TS 27.007, 9.2.
 */
const NO_CREDIT = 'refused by the network; often a card without credit or without text messages';

const CMS: Readonly<Record<number, string>> = {
  1: 'the number is not assigned to anybody',
  8: NO_CREDIT,
  10: 'calls are barred on this card',
  21: NO_CREDIT,
  27: 'the phone at the other end is out of order',
  28: 'the network does not know this card',
  29: NO_CREDIT,
  30: 'the network does not know this card',
  38: 'the network is out of order',
  41: 'the network fails for the moment',
  42: 'the network is full for the moment',
  47: 'the network has no room for the moment',
  50: NO_CREDIT,
  69: 'the network does not offer text messages',
  96: 'the network did not understand the message',
  300: 'the modem failed',
  301: 'the modem keeps its text service for itself',
  302: 'the modem does not allow it',
  303: 'the modem does not know how',
  304: 'the modem did not understand the message',
  305: 'the modem did not understand the message',
  310: 'no SIM card is in the modem',
  311: 'the SIM card asks for its PIN',
  312: 'the modem is locked to another card',
  313: 'the SIM card fails; take it out and put it back',
  314: 'the SIM card is busy',
  315: 'the SIM card is of the wrong kind',
  316: 'the SIM card is blocked and asks for its PUK; a phone can free it',
  320: 'the memory of the modem fails',
  321: 'no such text is in the modem',
  322: 'the memory of the modem is full',
  330: 'the SIM card does not know its message centre; set it with a phone',
  331: 'the modem finds no network',
  332: 'the network did not answer',
  500: 'the modem does not say why; often a card without credit',
};

const CME: Readonly<Record<number, string>> = {
  3: 'the modem does not allow it',
  4: 'the modem does not know how',
  10: 'no SIM card is in the modem',
  11: 'the SIM card asks for its PIN',
  12: 'the SIM card is blocked and asks for its PUK; a phone can free it',
  13: 'the SIM card fails; take it out and put it back',
  14: 'the SIM card is busy',
  15: 'the SIM card is of the wrong kind',
  16: 'the PIN is wrong',
  30: 'the modem finds no network',
  31: 'the network did not answer',
  32: 'the network allows emergency calls only; often a card that is not active',
};

/** The number is nobody's: no other attempt helps. 28 and 30 are said of the card that sends. */
const NOBODY: readonly number[] = [1];

const numberIn = (says: string): number | null => {
  const digits = /: *(\d{1,5})\s*$/.exec(says)?.[1];
  return digits === undefined ? null : Number(digits);
};

/** An error of the modem in words for the grower. */
export const errorWords = (says: string): string => {
  const number = numberIn(says);
  const table = says.startsWith('+CME') ? CME : CMS;
  const words = number === null ? undefined : table[number];
  if (words !== undefined) return `${words} (${says})`;
  if (says === 'NO CARRIER') return 'the network did not put the call through, or it was cut';
  if (says === 'BUSY') return 'the phone is busy';
  return `the modem answers ${says.slice(0, 60)}`;
};

export const isUseless = (says: string): boolean => {
  const number = numberIn(says);
  return says.startsWith('+CMS') && number !== null && NOBODY.includes(number);
};

/**
 * Whether the card may have counted a PIN as wrong; three of those block it, so in doubt it has. 3GPP TS 27.007, 9.2: 16
 * incorrect password, 12 PUK required; 11, PIN required (still, though one was given), and 100, unknown, tell no more than
 * a bare ERROR. A modem that knows no numbers has the words. A card that is busy (14), absent or not reached has counted none.
 */
const PIN_REFUSED =
  /^(?:ERROR|\+CME ERROR: *(?:11|12|16|100|incorrect password|SIM P(?:IN|UK) required|unknown))$/i;
const PUK_WANTED = /^\+CME ERROR: *(?:12|SIM PUK required)$/i;

export const isPinRefused = (says: string): boolean => PIN_REFUSED.test(says);
export const isPukWanted = (says: string): boolean => PUK_WANTED.test(says);

/** 3GPP TS 27.007, 7.2: whether the modem is at home in a network, or why not. Null: it is. */
export const registrationWords = (lines: readonly string[]): string | null => {
  const line = lines.find((each) => each.startsWith('+CREG:')) ?? '';
  const status = /^\+CREG: *(?:\d+ *, *)?(\d+)/.exec(line)?.[1];
  switch (status) {
    // At home and abroad; for texts only; and where calls go the older way, and are not preferred (LTE).
    case '1':
    case '5':
    case '6':
    case '7':
    case '9':
    case '10':
      return null;
    case '0':
      return 'the modem is in no network and looks for none; is the antenna on, is the card active?';
    case '2':
      return 'the modem looks for a network and has found none yet; is the antenna on?';
    case '3':
      return 'the network does not let this card in';
    case '8':
      return 'the network allows emergency calls only; often a card that is not active';
    case undefined:
    default:
      return 'the modem does not know whether it is in a network';
  }
};
