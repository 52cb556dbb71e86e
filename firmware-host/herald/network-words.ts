const CODES: Readonly<Record<string, string>> = {
  ECONNREFUSED: 'nothing listens there',
  ECONNRESET: 'the other side cut the connection',
  EPIPE: 'the other side cut the connection',
  ETIMEDOUT: 'no answer in time',
  EHOSTUNREACH: 'no way there; is the internet up?',
  ENETUNREACH: 'no way there; is the internet up?',
  ENOTFOUND: 'its name is not known',
  EAI_AGAIN: 'its name cannot be looked up; is the internet up?',
  EDNS: 'its name cannot be looked up; is the internet up?',
  CERT_HAS_EXPIRED: 'its certificate has expired, or the clock of this computer is wrong',
  CERT_NOT_YET_VALID: 'its certificate is not valid yet, or the clock of this computer is wrong',
  DEPTH_ZERO_SELF_SIGNED_CERT: 'its certificate is signed by itself, and nobody vouches for it',
  SELF_SIGNED_CERT_IN_CHAIN: 'its certificate is signed by nobody this computer knows',
  UNABLE_TO_VERIFY_LEAF_SIGNATURE: 'its certificate is signed by nobody this computer knows',
  UNABLE_TO_GET_ISSUER_CERT_LOCALLY: 'its certificate is signed by nobody this computer knows',
  ERR_TLS_CERT_ALTNAME_INVALID: 'its certificate is for another name',
};

/** Where a library keeps the words of an error and not its code. */
const MESSAGES: readonly (readonly [RegExp, string])[] = [
  [/self-signed certificate in/, 'SELF_SIGNED_CERT_IN_CHAIN'],
  [/self-signed certificate/, 'DEPTH_ZERO_SELF_SIGNED_CERT'],
  [/certificate has expired/, 'CERT_HAS_EXPIRED'],
  [/certificate is not yet valid/, 'CERT_NOT_YET_VALID'],
  [/does not match certificate|altnames/, 'ERR_TLS_CERT_ALTNAME_INVALID'],
  [/unable to (?:verify|get)/, 'UNABLE_TO_VERIFY_LEAF_SIGNATURE'],
];

const LETTERS_MAX = 120;

/** Takes secrets out of a text. */
export type Hidden = (text: string) => string;

/** What somebody else said, in one line of at most so many letters. Hidden first: half a password is not known as one. */
export const quotedWords = (text: string, hidden: Hidden, lettersMax: number = LETTERS_MAX): string =>
  hidden(text).replace(/\s+/g, ' ').slice(0, lettersMax);

const codesOf = (error: unknown, depth = 0): readonly string[] => {
  if (!(error instanceof Error) || depth > 4) return [];
  const { code } = error as NodeJS.ErrnoException;
  const inner = error instanceof AggregateError ? error.errors : [error.cause];
  return [...inner.flatMap((each) => codesOf(each, depth + 1)), ...(code === undefined ? [] : [code])];
};

/** What went wrong on the network, in words; the innermost cause that is known. */
export const networkWords = (error: unknown, hidden: Hidden): string => {
  const text = error instanceof Error ? error.message : String(error);
  const known =
    codesOf(error).find((code) => code in CODES) ?? MESSAGES.find(([words]) => words.test(text))?.[1];
  if (known !== undefined) return `${CODES[known] ?? ''} (${known})`;
  return quotedWords(text, hidden);
};
