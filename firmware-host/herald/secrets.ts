import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { readWhole } from '../storage/atomic-file.ts';

/** What the channels log in with. It stays in memory: never in the farm file, the journal or a log. */
export interface Secrets {
  readonly get: (name: string) => string | null;
  /** Why the file, or a line of it, is not used; null where all of it is, or where there is none. Never a word of its lines. */
  readonly refused: string | null;
  /** The text with every secret taken out, for whatever leaves this process as words. */
  readonly hidden: (text: string) => string;
}

const PREFIX = 'RILLKEEPER_';
const LINE = /^\s*(RILLKEEPER_[A-Z0-9_]+)\s*=\s*(.*?)\s*$/;
/** Empty, or a remark. */
const NO_LINE = /^\s*(?:#.*)?$/;
/** Of the mode: what others than the owner may do. */
const OTHERS = 0o077;
/** Shorter ones would take letters out of ordinary words; a PIN has four. */
const HIDDEN_LETTERS_MIN = 4;
/** The name of a login is less of a secret, unless it is a key; a short one may be a word of any sentence. */
const HIDDEN_NAME_LETTERS_MIN = 8;

export const secretsFile = (folder: string): string => join(folder, 'secrets.env');

const bothWays = (part: string): readonly string[] => {
  try {
    return [part, decodeURIComponent(part)];
  } catch {
    return [part];
  }
};

/** A secret, and where it is an address what a library may tell of it alone: its login, and the address without. */
const hiddenParts = (secret: string): readonly string[] => {
  if (!secret.includes('://') || !URL.canParse(secret)) return [secret];
  const address = new URL(secret);
  const { username, password } = address;
  address.username = '';
  address.password = '';
  return [
    secret,
    address.href,
    ...bothWays(password),
    ...bothWays(username).filter(({ length }) => length >= HIDDEN_NAME_LETTERS_MIN),
  ];
};

/** As a shell would read it: quotes at both ends are not part of the value. */
const unquoted = (value: string): string => value.replace(/^(["'])(.*)\1$/, '$2');

/** The lines themselves may well hold a password, and stay untold. */
const wrongWords = (path: string, lines: readonly number[]): string =>
  `${path}: ${lines.length === 1 ? 'line' : 'lines'} ${lines.join(', ')} ${lines.length === 1 ? 'is' : 'are'} not RILLKEEPER_NAME=value (no "export", no blank in the name) and not used; the others are`;

const ofFile = async (
  folder: string,
): Promise<{ readonly values: ReadonlyMap<string, string>; readonly refused: string | null }> => {
  const path = secretsFile(folder);
  const none = new Map<string, string>();
  try {
    const text = await readWhole(path);
    if (text === null) return { values: none, refused: null };
    const { mode, uid } = await stat(path);
    if ((mode & OTHERS) !== 0) {
      return {
        values: none,
        refused: `${path} can be read by others and is not used; say: chmod 600 ${path}`,
      };
    }
    if (process.getuid !== undefined && uid !== process.getuid() && uid !== 0) {
      return { values: none, refused: `${path} belongs to somebody else and is not used` };
    }
    const lines = text.split(/\r?\n/);
    const values = new Map<string, string>();
    const wrong = lines.flatMap((line, place) => {
      const [, name, value] = LINE.exec(line) ?? [];
      if (name === undefined || value === undefined) return NO_LINE.test(line) ? [] : [place + 1];
      if (value !== '') values.set(name, unquoted(value));
      return [];
    });
    return { values, refused: wrong.length === 0 ? null : wrongWords(path, wrong) };
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? 'unreadable';
    return { values: none, refused: `${path} cannot be read (${code}) and is not used` };
  }
};

/** Secrets from the environment, which wins, and from a file of mode 600 in the state folder. */
export const readSecrets = async (folder: string, env: NodeJS.ProcessEnv = process.env): Promise<Secrets> => {
  const { values, refused } = await ofFile(folder);
  const get = (name: string): string | null => {
    const own = env[name];
    return own !== undefined && own !== '' ? own : (values.get(name) ?? null);
  };
  const known = [
    ...values.values(),
    ...Object.entries(env).flatMap(([name, value]) =>
      name.startsWith(PREFIX) && /PIN|PASSWORD|KEY|URL/.test(name) && value !== undefined ? [value] : [],
    ),
  ]
    .flatMap(hiddenParts)
    .filter(({ length }) => length >= HIDDEN_LETTERS_MIN)
    .toSorted((one, other) => other.length - one.length);
  return {
    get,
    refused,
    hidden: (text) => known.reduce((left, secret) => left.replaceAll(secret, '…'), text),
  };
};
