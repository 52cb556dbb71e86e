import { isAlias, isMap, isNode, isScalar, isSeq, Scalar, visit, type Pair } from 'yaml';
import type { DayPart, Farm } from '../../src/farm/farm.ts';
import { assert } from '../../src/units/assertion.ts';
import { readYaml, type PlacedProblem, type YamlDocument } from './yaml-document.ts';

/** Other numbers for one day part; what is not named stays. */
export interface PartChange {
  /** The name of the part as the farm has it. */
  readonly part: string;
  /** Instead of `restMinutes`; never both. */
  readonly floods?: number;
  readonly restMinutes?: number;
  readonly floodMinutes?: number;
}

export interface PlanChange {
  /** Each part at most once. */
  readonly parts: readonly PartChange[];
  readonly restPercentPerDegree?: number;
}

export type ChangedText =
  | { readonly ok: true; readonly text: string }
  /** Nothing is changed unless all is: what cannot be, where it stands, and what to do by hand. */
  | { readonly ok: false; readonly problems: readonly PlacedProblem[] };

/** A hundredth of a minute is 0.6 s: less than any flood or leaf can tell, and never an exponent in the file. */
const DECIMALS_MAX = 2;

/** A number as it will stand in the file. */
export const asWritten = (value: number): number => {
  assert(Number.isFinite(value), `${value} cannot be written into a farm file`);
  // The sum turns -0 into 0.
  return Number(value.toFixed(DECIMALS_MAX)) + 0;
};

const assertOneMeaning = ({ parts }: PlanChange): void => {
  assert(new Set(parts.map(({ part }) => part)).size === parts.length, 'a day part is changed twice');
  for (const { part, floods, restMinutes } of parts)
    assert(floods === undefined || restMinutes === undefined, `${part}: floods and restMinutes at once`);
};

const changedPart = (before: DayPart, change: PartChange): DayPart => {
  const { floods, restMinutes, floodMinutes } = change;
  return {
    ...before,
    ...(floods === undefined ? {} : { pace: { kind: 'number', floods: asWritten(floods) } }),
    ...(restMinutes === undefined ? {} : { pace: { kind: 'rest', restMinutes: asWritten(restMinutes) } }),
    ...(floodMinutes === undefined ? {} : { floodMinutes: asWritten(floodMinutes) }),
  };
};

/** The farm that the changed text must hold: the same but for the numbers of the change. */
export const changedFarm = (farm: Farm, change: PlanChange): Farm => {
  assertOneMeaning(change);
  const { parts, restPercentPerDegree: percent } = change;
  return {
    ...farm,
    dayPlan: farm.dayPlan.map((part) => {
      const own = parts.find((each) => each.part === part.name);
      return own === undefined ? part : changedPart(part, own);
    }),
    temperatureRule: {
      ...farm.temperatureRule,
      ...(percent === undefined ? {} : { restPercentPerDegree: asWritten(percent) }),
    },
  };
};

type Path = readonly (string | number)[];

interface Splice {
  readonly kind: 'splice';
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

interface Refused {
  readonly kind: 'refused';
  readonly problem: PlacedProblem;
}

type Edit = Splice | Refused;

/** The read text, and the anchors that an alias anywhere in it repeats. */
interface Sheet extends YamlDocument {
  readonly repeated: ReadonlySet<string>;
}

const repeatedAnchors = ({ document }: YamlDocument): ReadonlySet<string> => {
  const names = new Set<string>();
  visit(document, {
    Alias: (_, { source }) => {
      names.add(source);
    },
  });
  return names;
};

const refusedAt = (
  { locate }: Sheet,
  path: Path,
  words: Pick<PlacedProblem, 'found' | 'allowed' | 'problem' | 'advice'>,
): Refused => ({ kind: 'refused', problem: { path, ...words, ...locate(path) } });

/** Why a node may not be changed where it stands: it stands for other places of the file as well. */
const sharedAt = (sheet: Sheet, path: Path, node: unknown, byHand: string): Refused | null => {
  const allowed = 'values written out here, for this place alone';
  if (isAlias(node)) {
    return refusedAt(sheet, path, {
      found: `the alias *${node.source}`,
      allowed,
      problem: 'What an alias repeats cannot be changed in one place alone.',
      advice: `Write it out here, then ${byHand}.`,
    });
  }
  if (!isNode(node) || node.anchor === undefined || !sheet.repeated.has(node.anchor)) return null;
  return refusedAt(sheet, path, {
    found: `the anchor &${node.anchor}, repeated by an alias`,
    allowed,
    problem: 'A change here would change the places of the alias as well.',
    advice: `Write those out first, then ${byHand}.`,
  });
};

const pairOf = (node: unknown, key: string): Pair | undefined =>
  isMap(node) ? node.items.find((pair) => isScalar(pair.key) && pair.key.value === key) : undefined;

/** The node at a path that belongs to this place alone, or why there is none. */
const ownNode = (
  sheet: Sheet,
  path: Path,
  byHand: string,
): { readonly kind: 'own'; readonly node: unknown } | Refused => {
  let node: unknown = sheet.document.contents;
  for (let depth = 0; depth <= path.length; depth += 1) {
    const shared = sharedAt(sheet, path.slice(0, depth), node, byHand);
    if (shared !== null) return shared;
    const step = path[depth];
    if (typeof step === 'number') node = isSeq(node) ? node.items[step] : undefined;
    else if (step !== undefined) node = pairOf(node, step)?.value;
  }
  return { kind: 'own', node };
};

const QUOTES: Readonly<Record<string, string>> = {
  [Scalar.PLAIN]: '',
  [Scalar.QUOTE_SINGLE]: "'",
  [Scalar.QUOTE_DOUBLE]: '"',
};

/** The characters of a scalar, without its anchor and comment; null where it is none, or written unusually. */
const charactersOf = (
  node: unknown,
): { readonly start: number; readonly end: number; readonly quote: string } | null => {
  if (!isScalar(node) || !node.range || node.tag !== undefined) return null;
  const quote = QUOTES[node.type ?? ''];
  return quote === undefined ? null : { start: node.range[0], end: node.range[1], quote };
};

interface NumberChange {
  /** The block that holds the number. */
  readonly path: Path;
  /** The key as it shall be, and that which it replaces where it is not there. */
  readonly key: string;
  readonly insteadOf?: string;
  readonly value: number;
}

const numberEdits = (sheet: Sheet, change: NumberChange): readonly Edit[] => {
  const { path, key, insteadOf } = change;
  const value = asWritten(change.value);
  const without = insteadOf === undefined ? '' : `, without ${insteadOf}`;
  const byHand = `write ${key}: ${value} by hand${without}`;
  const block = ownNode(sheet, path, byHand);
  if (block.kind === 'refused') return [block];
  const present = [key, insteadOf].filter(
    (each) => each !== undefined && pairOf(block.node, each) !== undefined,
  );
  const [standing, another] = present;
  const pair = standing === undefined ? undefined : pairOf(block.node, standing);
  if (standing === undefined || pair === undefined || another !== undefined) {
    const found = another === undefined ? `no plain key ${key}` : present.join(' and ');
    const allowed = insteadOf === undefined ? key : `either ${key} or ${insteadOf}`;
    const problem = 'The number to change does not stand here as expected.';
    const advice = `In this block, ${byHand}.`;
    return [refusedAt(sheet, path, { found, allowed, problem, advice })];
  }
  const at = [...path, standing];
  const shared = sharedAt(sheet, at, pair.value, byHand) ?? sharedAt(sheet, at, pair.key, byHand);
  if (shared !== null) return [shared];
  const keyPlace = charactersOf(pair.key);
  const place = charactersOf(pair.value);
  const number = isScalar(pair.value) ? pair.value.value : undefined;
  if (keyPlace === null || place?.quote !== '' || typeof number !== 'number') {
    const found = 'a key or value written in an unusual way';
    const problem = 'This cannot be changed without touching what stands around it.';
    const allowed = 'a key and a number on one line, without a tag';
    return [refusedAt(sheet, at, { found, allowed, problem, advice: `Here, ${byHand}.` })];
  }
  const renamed = `${keyPlace.quote}${key}${keyPlace.quote}`;
  return [
    ...(standing === key
      ? []
      : [{ kind: 'splice', start: keyPlace.start, end: keyPlace.end, text: renamed } as const]),
    // A number that is right already stays as it was written, `25.0` too.
    ...(number === value && standing === key
      ? []
      : [{ kind: 'splice', start: place.start, end: place.end, text: String(value) } as const]),
  ];
};

/** The name that a day part bears in the farm, which has it without blanks at its ends. */
const nameOf = (sheet: Sheet, entry: unknown): string | null => {
  const part = isAlias(entry) ? entry.resolve(sheet.document) : entry;
  const name = pairOf(part, 'part')?.value;
  const written = isAlias(name) ? name.resolve(sheet.document) : name;
  return isScalar(written) && typeof written.value === 'string' ? written.value.trim() : null;
};

const partEdits = (sheet: Sheet, change: PartChange): readonly Edit[] => {
  const { part, floods, restMinutes, floodMinutes } = change;
  const plan = ownNode(sheet, ['dayPlan'], `change the part “${part}” by hand`);
  if (plan.kind === 'refused') return [plan];
  const place = isSeq(plan.node) ? plan.node.items.findIndex((each) => nameOf(sheet, each) === part) : -1;
  if (place < 0) {
    const found = `no part “${part}”`;
    const problem = 'The day part to change does not stand in the day plan.';
    const advice = 'Give it its name back, or change the plan by hand.';
    return [refusedAt(sheet, ['dayPlan'], { found, allowed: 'a list of day parts', problem, advice })];
  }
  const path = ['dayPlan', place];
  const numbers: readonly NumberChange[] = [
    ...(floods === undefined ? [] : [{ path, key: 'floods', insteadOf: 'restMinutes', value: floods }]),
    ...(restMinutes === undefined
      ? []
      : [{ path, key: 'restMinutes', insteadOf: 'floods', value: restMinutes }]),
    ...(floodMinutes === undefined ? [] : [{ path, key: 'floodMinutes', value: floodMinutes }]),
  ];
  return numbers.flatMap((number) => numberEdits(sheet, number));
};

const spliced = (text: string, splices: readonly Splice[]): string =>
  splices
    .toSorted((one, other) => other.start - one.start)
    .reduce((so, splice) => so.slice(0, splice.start) + splice.text + so.slice(splice.end), text);

/**
 * The text of a farm file with other numbers in its day plan. Only the characters of those numbers are replaced,
 * and of `floods` or `restMinutes` where a part changes from one to the other; every other byte stays.
 */
export const changedText = (text: string, change: PlanChange): ChangedText => {
  assertOneMeaning(change);
  const yaml = readYaml(text);
  if (!yaml.ok || yaml.problems.length > 0) return { ok: false, problems: yaml.problems };
  const sheet: Sheet = { ...yaml, repeated: repeatedAnchors(yaml) };
  const { parts, restPercentPerDegree: value } = change;
  const edits = [
    ...parts.flatMap((part) => partEdits(sheet, part)),
    ...(value === undefined
      ? []
      : numberEdits(sheet, { path: ['temperatureRule'], key: 'restPercentPerDegree', value })),
  ];
  const problems = edits.flatMap((edit) => (edit.kind === 'refused' ? [edit.problem] : []));
  if (problems.length > 0) return { ok: false, problems };
  return {
    ok: true,
    text: spliced(
      text,
      edits.filter((edit) => edit.kind === 'splice'),
    ),
  };
};
