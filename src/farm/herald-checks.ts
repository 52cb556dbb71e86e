import type { FarmProblem } from './problem.ts';
import { SECRET_NAMES } from './secret-names.ts';
import { foundWords } from './value-words.ts';
import { valueAt } from './schema-walk.ts';

type Path = readonly (string | number)[];

const WHERE =
  'in the environment of the host, or in the file secrets.env of its state folder with mode 600, one NAME=value a line';

const SECRET_KEY = /pass|secret|token|pin$|puk|apikey|^key$|credential/i;
/** `//user:password@` and `?key=…`; RFC 3986, 3.2.1 and 3.4. */
const SECRET_IN_URL = /^[a-z]+:\/\/(?:[^/?#]*@|[^?]*\?)/i;

const NAME_FOR: Readonly<Record<string, string>> = {
  modem: SECRET_NAMES.simPin,
  mail: SECRET_NAMES.mailPassword,
  broker: SECRET_NAMES.brokerPassword,
  webhooks: 'RILLKEEPER_WEBHOOK_KEY_<NAME>',
};

/** Never repeats what it found: a refusal is printed, and may be sent to somebody for help. */
const secretProblem = (path: Path, found: string, name: string): FarmProblem => ({
  path,
  found,
  allowed: `no secret in a farm file; ${name} ${WHERE}`,
  problem: 'A farm file is copied, printed and sent round.',
  advice: 'Take it out here, and change it if the file has been shared.',
});

interface Block {
  readonly path: Path;
  readonly section: string;
  readonly block: object;
}

const isBlock = (value: unknown): value is object =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The sections and, of a list, its entries; no deeper, since the schema knows nothing deeper. */
const blocksOf = (raw: unknown): readonly Block[] => {
  const herald = valueAt(raw, ['herald']);
  if (!isBlock(herald)) return [];
  return [
    { path: ['herald'], section: 'herald', block: herald },
    ...Object.entries(herald).flatMap(([section, value]: [string, unknown]): readonly Block[] => {
      const path = ['herald', section];
      if (isBlock(value)) return [{ path, section, block: value }];
      if (!Array.isArray(value)) return [];
      return value
        .slice(0, ENTRIES_MAX)
        .flatMap((entry: unknown, place) =>
          isBlock(entry) ? [{ path: [...path, place], section, block: entry }] : [],
        );
    }),
  ];
};

/** Longer lists are refused for their length alone. */
const ENTRIES_MAX = 32;

/** Secrets that stand where they do not belong. Each wins over what the schema says of the same place. */
export const heraldSecretProblems = (raw: unknown): readonly FarmProblem[] =>
  blocksOf(raw).flatMap(({ path, section, block }) =>
    Object.entries(block).flatMap(([key, value]: [string, unknown]): readonly FarmProblem[] => {
      const at = [...path, key];
      if (SECRET_KEY.test(key)) {
        return [secretProblem(at, `the key ${foundWords(key)}`, NAME_FOR[section] ?? 'a secret stands')];
      }
      if (key !== 'url' || typeof value !== 'string' || !SECRET_IN_URL.test(value)) return [];
      const name =
        section === 'webhooks' ? 'RILLKEEPER_WEBHOOK_URL_<NAME> for the whole address' : NAME_FOR[section];
      return [secretProblem(at, 'an address with a login or a query in it', name ?? 'a secret stands')];
    }),
  );

/** How the section agrees with itself. */
export const heraldProblems = (raw: unknown): readonly FarmProblem[] => {
  const problems: FarmProblem[] = [];
  const mail = (key: string): unknown => valueAt(raw, ['herald', 'mail', key]);
  if (mail('security') === 'none' && mail('user') !== undefined) {
    problems.push({
      path: ['herald', 'mail', 'user'],
      found: 'a login without encryption',
      allowed: 'security: tls or starttls, or no user',
      problem: 'The password would go over the wire for everybody to read.',
    });
  }
  for (const [list, key] of [
    ['people', 'name'],
    ['webhooks', 'name'],
  ] as const) {
    const entries = valueAt(raw, ['herald', list]);
    if (!Array.isArray(entries)) continue;
    const seen = new Set<unknown>();
    entries.slice(0, ENTRIES_MAX).forEach((entry: unknown, place) => {
      const named = valueAt(entry, [key]);
      if (typeof named !== 'string') return;
      if (seen.has(named)) {
        problems.push({
          path: ['herald', list, place, key],
          found: foundWords(named),
          allowed: 'a name that no other entry has',
          problem: 'Nobody could tell the two apart.',
        });
      }
      seen.add(named);
    });
  }
  return problems;
};
