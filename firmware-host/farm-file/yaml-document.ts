import {
  isAlias,
  isMap,
  isNode,
  isScalar,
  isSeq,
  LineCounter,
  parseDocument,
  visit,
  type Document,
  type Pair,
  type YAMLMap,
} from 'yaml';
import type { FarmProblem } from '../../src/farm/parse.ts';

/** Repeats by alias beyond this are a bomb and no farm. */
const ALIASES_MAX = 50;

/** Faults of the writing itself; after these more say nothing new. */
const FAULTS_TOLD_MAX = 20;

export interface Position {
  /** From 1. */
  readonly line: number;
  readonly column: number;
}

export type PlacedProblem = FarmProblem & Position;

export interface YamlDocument {
  readonly raw: unknown;
  /** Keys written twice: told, but no reason to stop reading. */
  readonly problems: readonly PlacedProblem[];
  /** Where a key or value stands; for a missing one, where its parent does. */
  readonly locate: (path: readonly (string | number)[], pointsAt?: 'key') => Position;
  /** What was read, with the place of every node in the text; for changes to the text itself. */
  readonly document: Document;
}

export type ReadYaml =
  | ({ readonly ok: true } & YamlDocument)
  | { readonly ok: false; readonly problems: readonly PlacedProblem[] };

const FILE_START: Position = { line: 1, column: 1 };

const positionAt = (lines: LineCounter, offset: number): Position => {
  const { line, col } = lines.linePos(offset);
  return line < 1 ? FILE_START : { line, column: Math.max(1, col) };
};

const offsetOf = (node: unknown): number | null => (isNode(node) ? (node.range?.[0] ?? null) : null);

interface Step {
  readonly key: number | null;
  readonly value: unknown;
}

const indexed = new WeakMap<YAMLMap, ReadonlyMap<string, Pair>>();

/** The pairs of a map by key; a key written twice counts as its last, as in the value that was read. */
const pairsOf = (map: YAMLMap): ReadonlyMap<string, Pair> => {
  const known = indexed.get(map);
  if (known !== undefined) return known;
  const pairs = new Map<string, Pair>();
  for (const pair of map.items) if (isScalar(pair.key)) pairs.set(String(pair.key.value), pair);
  indexed.set(map, pairs);
  return pairs;
};

/** One step down: the pair of a map or the entry of a list, or null when there is none. */
const stepInto = (document: Document, node: unknown, step: string | number): Step | null => {
  const whole = isAlias(node) ? node.resolve(document) : node;
  if (isMap(whole)) {
    const pair = pairsOf(whole).get(String(step));
    return pair === undefined ? null : { key: offsetOf(pair.key), value: pair.value };
  }
  if (!isSeq(whole) || typeof step !== 'number' || step >= whole.items.length) return null;
  const value = whole.items[step];
  return { key: offsetOf(value), value };
};

const isEmpty = (node: unknown): boolean => !isNode(node) || (isScalar(node) && node.value === null);

const offsetAt = (
  document: Document,
  path: readonly (string | number)[],
  pointsAt: 'key' | 'value',
): number => {
  let node: unknown = document.contents;
  let offset = offsetOf(node) ?? 0;
  for (const [place, step] of path.entries()) {
    const next = stepInto(document, node, step);
    if (next === null) return offset;
    const isLast = place === path.length - 1;
    // A value is pointed at itself; a key, an empty value or the parent of a missing key by its key.
    const ownValue = isLast && pointsAt === 'value' && !isEmpty(next.value);
    offset = (ownValue ? offsetOf(next.value) : next.key) ?? offset;
    node = next.value;
  }
  return offset;
};

/** Messages of the reader that speak to programmers, by how they begin. */
const PLAIN_MESSAGES: readonly (readonly [begins: string, plain: string])[] = [
  ['Maximum call stack', 'The blocks are nested too deeply.'],
  ['Source contains multiple documents', 'The file holds more than one document; write one farm to a file.'],
  ['Excessive alias count', 'The file repeats too much by alias; write the values out.'],
];

const plainMessage = (message: string): string =>
  PLAIN_MESSAGES.find(([begins]) => message.startsWith(begins))?.[1] ?? `${message.replace(/\.$/, '')}.`;

const syntaxProblem = (message: string, position: Position): PlacedProblem => ({
  path: [],
  found: 'text that cannot be read as YAML',
  allowed: 'keys and values with the same indent in one block',
  problem: plainMessage(message),
  ...position,
});

const tabProblem = (position: Position): PlacedProblem => ({
  path: [],
  found: 'a tab',
  allowed: 'spaces at the beginning of a line',
  problem: 'Tabs are not allowed as indentation.',
  advice: 'Write spaces in its place.',
  ...position,
});

const twiceWritten = (key: string, position: Position): PlacedProblem => ({
  path: [],
  found: `${key} a second time`,
  allowed: 'each key once in its block',
  problem: 'This key stands above already.',
  advice: 'Remove one of the two.',
  ...position,
});

/** The reader's own check compares every key with every other: a minute for a file of 1 MB. */
const repeatedKeys = (document: Document, lines: LineCounter): readonly PlacedProblem[] => {
  const problems: PlacedProblem[] = [];
  visit(document, {
    Map: (_, map) => {
      const seen = new Set<string>();
      for (const { key } of map.items) {
        if (!isScalar(key)) continue;
        const text = String(key.value);
        if (seen.has(text)) problems.push(twiceWritten(text, positionAt(lines, offsetOf(key) ?? 0)));
        seen.add(text);
      }
    },
  });
  return problems.slice(0, FAULTS_TOLD_MAX);
};

/** What a YAML text holds, with the place of everything; or why it cannot be read, line by line. */
export const readYaml = (text: string): ReadYaml => {
  const lines = new LineCounter();
  try {
    // Schema and merging are fixed, whatever version a `%YAML` line asks for: in 1.1 6:30 is the number 390.
    const document = parseDocument(text, {
      lineCounter: lines,
      prettyErrors: false,
      uniqueKeys: false,
      schema: 'core',
      merge: false,
      resolveKnownTags: false,
    });
    const all = [...document.errors, ...document.warnings];
    // A tab makes the reader stumble over what follows it as well.
    const tabs = all.filter(({ code }) => code === 'TAB_AS_INDENT');
    if (tabs.length > 0) {
      const problems = tabs.slice(0, FAULTS_TOLD_MAX).map(({ pos }) => tabProblem(positionAt(lines, pos[0])));
      return { ok: false, problems };
    }
    const faults = all.slice(0, FAULTS_TOLD_MAX);
    if (faults.length > 0) {
      const problems = faults.map(({ message, pos }) => syntaxProblem(message, positionAt(lines, pos[0])));
      return { ok: false, problems };
    }
    return {
      ok: true,
      raw: document.toJS({ maxAliasCount: ALIASES_MAX }),
      problems: repeatedKeys(document, lines),
      locate: (path, pointsAt) => positionAt(lines, offsetAt(document, path, pointsAt ?? 'value')),
      document,
    };
  } catch (error) {
    // The reader throws for aliases without anchor, alias bombs, and nesting deeper than its stack.
    const known = error instanceof ReferenceError || error instanceof RangeError;
    if (!known) throw error;
    return { ok: false, problems: [syntaxProblem(error.message, FILE_START)] };
  }
};
