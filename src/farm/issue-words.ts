import { z } from 'zod';
import { nameKeySchema } from './name-schema.ts';
import { nearestWord } from './nearest-word.ts';
import type { FarmProblem } from './problem.ts';
import { keysKnownAt, schemaAt, valueAt } from './schema-walk.ts';
import { unitSlip } from './unit-slips.ts';
import { allowedWords, foundWords, numberBounds } from './value-words.ts';

/** A file with more than this at fault is no farm file, and nobody reads on. */
const PROBLEMS_MAX = 1000;
const KEYS_COMPARED_MAX = 32;

type Path = readonly PropertyKey[];
type Issue = z.core.$ZodIssue;

/** What the issues of one parse are told about: the schema and the value it refused. */
interface Judged {
  readonly schema: z.ZodType;
  readonly raw: unknown;
}

const plainPath = (path: Path): readonly (string | number)[] =>
  path.map((step) => (typeof step === 'symbol' ? step.toString() : step));

const unknownKey = ({ schema }: Judged, path: Path, key: string, place: number): FarmProblem => {
  const known = keysKnownAt(schema, path);
  const near = place < KEYS_COMPARED_MAX ? nearestWord(key, known) : null;
  return {
    path: plainPath([...path, key]),
    found: `the key ${foundWords(key)}`,
    allowed: known.join(', '),
    problem: 'This key is not known here.',
    pointsAt: 'key',
    ...(near === null ? {} : { advice: `Perhaps ${near} was meant.` }),
  };
};

/** A key of another block that may stand here: its value is at fault, or it does not go with the other keys. */
const keyOfAnotherBlock = (judged: Judged, path: Path, key: string): readonly FarmProblem[] | null => {
  const at = [...path, key];
  const part = schemaAt(judged.schema, at);
  if (!(part instanceof z.ZodType)) return null;
  const parsed = part.safeParse(valueAt(judged.raw, at));
  if (!parsed.success) return parsed.error.issues.flatMap((issue) => problemsOf(judged, at, issue));
  const others = keysKnownAt(judged.schema, path).filter((known) => known !== key);
  return [
    {
      path: plainPath(at),
      found: `the key ${foundWords(key)}`,
      allowed: others.join(', '),
      problem: 'This key does not go with the others of this block.',
      pointsAt: 'key',
    },
  ];
};

/** Why a value was refused. */
const reasonOf = (issue: Issue, value: unknown): string => {
  if (value === undefined) return 'This key is missing.';
  if (value === null) return 'This key has no value.';
  if (typeof value === 'number' && !Number.isFinite(value)) return 'This is no number to count with.';
  if (issue.code === 'too_small') {
    if (typeof value === 'number') return 'The number is too small.';
    return Array.isArray(value) ? 'The list is too short.' : 'The text is too short.';
  }
  if (issue.code === 'too_big') {
    if (typeof value === 'number') return 'The number is too large.';
    return Array.isArray(value) ? 'The list is too long.' : 'The text is too long.';
  }
  if (issue.code === 'invalid_type' && issue.expected === 'int' && typeof value === 'number')
    return 'The number must be whole.';
  return issue.code === 'invalid_type'
    ? 'This is the wrong kind of value.'
    : 'This value is not one of those allowed.';
};

/** A name that is a key, and is refused as a name. */
const badKey = (path: Path, inner: Issue | undefined): FarmProblem => {
  const key = path.at(-1);
  return {
    path: plainPath(path),
    found: `the key ${foundWords(key)}`,
    allowed: inner?.code === 'custom' ? inner.message.replace(/^expected /, '') : allowedWords(nameKeySchema),
    problem: inner === undefined ? 'This is no name.' : reasonOf(inner, key),
    pointsAt: 'key',
  };
};

const NUMBER_WITH_COMMA = /^[+-]?\d+,\d+$/;
const NUMBER_WITH_UNIT = /^([+-]?\d+(?:[.,]\d+)?)\s*([a-zA-Z°%/²³]+)$/;
const SHORT_CLOCK_TIME = /^\d:[0-5]\d$/;
const YES_OR_NO = /^(?:yes|no|on|off)$/i;

/** What to write instead, where the slip of the pen is a common one. */
const adviceFor = (value: unknown, allowed: string): string | null => {
  if (typeof value !== 'string') return null;
  const text = value.trim();
  const [, digits, unit] = NUMBER_WITH_UNIT.exec(text) ?? [];
  if (allowed === 'true or false') {
    return YES_OR_NO.test(text) || /^(?:true|false)$/i.test(text)
      ? 'Write true or false, without quotes.'
      : null;
  }
  if (SHORT_CLOCK_TIME.test(text)) return `Write 0${text}.`;
  if (!/\d to |at least|any number/.test(allowed)) return null;
  if (NUMBER_WITH_COMMA.test(text)) return `Write ${text.replace(',', '.')}, with a point.`;
  if (digits !== undefined && unit !== undefined) {
    return `Write ${digits.replace(',', '.')} alone; the name of the key says the unit.`;
  }
  return text !== '' && Number.isFinite(Number(text)) ? `Write ${text} without quotes.` : null;
};

/** A number in another unit than the key says. */
const slipFor = (path: Path, value: unknown, schema: unknown): string | null => {
  const bounds = numberBounds(schema);
  if (typeof value !== 'number' || bounds === null) return null;
  return unitSlip(String(path.at(-1)), value, bounds.least, bounds.most);
};

const valueProblem = ({ schema, raw }: Judged, path: Path, issue: Issue): FarmProblem => {
  const value = valueAt(raw, path);
  const judge = schemaAt(schema, path);
  const allowed = issue.code === 'custom' ? issue.message.replace(/^expected /, '') : allowedWords(judge);
  const advice = adviceFor(value, allowed) ?? slipFor(path, value, judge);
  return {
    path: plainPath(path),
    found: foundWords(value),
    allowed,
    problem: reasonOf(issue, value),
    ...(advice === null ? {} : { advice }),
  };
};

const isBlock = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const keysUnknownTo = (issues: readonly Issue[]): number =>
  issues.reduce((sum, issue) => sum + (issue.code === 'unrecognized_keys' ? issue.keys.length : 0), 0);

const problemsOf = (judged: Judged, above: Path, issue: Issue): readonly FarmProblem[] => {
  const path = [...above, ...issue.path];
  if (issue.code === 'unrecognized_keys') {
    return issue.keys
      .slice(0, PROBLEMS_MAX)
      .flatMap(
        (key, place) => keyOfAnotherBlock(judged, path, key) ?? [unknownKey(judged, path, key, place)],
      );
  }
  if (issue.code === 'invalid_key') return [badKey(path, issue.issues[0])];
  if (issue.code === 'invalid_union' && isBlock(valueAt(judged.raw, path))) {
    // A block was written, so it is judged as the block that may stand here, not as the word; of several blocks
    // as the one that knows most of its keys.
    const [asBlock] = issue.errors
      .filter((issues) => issues.some(({ code, path: at }) => code !== 'invalid_value' || at.length > 0))
      .toSorted((one, other) => keysUnknownTo(one) - keysUnknownTo(other) || one.length - other.length);
    if (asBlock !== undefined) return asBlock.flatMap((inner) => problemsOf(judged, path, inner));
  }
  return [valueProblem(judged, path, issue)];
};

/** The issues in plain words, the first thousand of them; one problem for each place in the file. */
export const issueProblems = (
  schema: z.ZodType,
  raw: unknown,
  issues: readonly Issue[],
): readonly FarmProblem[] => {
  const problems = issues
    .slice(0, PROBLEMS_MAX)
    .flatMap((issue) => problemsOf({ schema, raw }, [], issue))
    .slice(0, PROBLEMS_MAX);
  const byPlace = new Map<string, FarmProblem>();
  for (const problem of problems) {
    const place = JSON.stringify(problem.path);
    if (!byPlace.has(place)) byPlace.set(place, problem);
  }
  return [...byPlace.values()];
};
