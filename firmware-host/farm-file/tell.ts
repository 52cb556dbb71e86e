import type { FarmWarning } from '../../src/farm/physics-check.ts';
import type { PlacedProblem, Position } from './read.ts';

/** More lines than this nobody reads at once; the first to be mended come first. */
const PROBLEMS_TOLD_MAX = 50;

/** `benches[0].slopePercent` */
export const pathWords = (path: readonly (string | number)[]): string =>
  path.reduce<string>((words, step) => {
    if (typeof step === 'number') return `${words}[${step}]`;
    return words === '' ? step : `${words}.${step}`;
  }, '');

/** What would move the cursor, or end the line, is shown as its number. */
const shown = (text: string): string =>
  text.replace(
    /[\p{Cc}\u2028\u2029]/gu,
    (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );

const line = (
  file: string,
  { line: row, column }: Position,
  path: string,
  words: readonly string[],
): string => shown(`${file}:${row}:${column}  ${path === '' ? '' : `${path}: `}${words.join(' ')}`);

const counted = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;

const told = (lines: readonly string[], closing: string): string => {
  const rest = lines.length - PROBLEMS_TOLD_MAX;
  const more = rest > 0 ? [`… and ${rest} more.`] : [];
  return [...lines.slice(0, PROBLEMS_TOLD_MAX), ...more, closing].join('\n');
};

const problemLines = (file: string, problems: readonly PlacedProblem[]): readonly string[] =>
  problems.map((problem) =>
    line(file, problem, pathWords(problem.path), [
      `found ${problem.found}; allowed ${problem.allowed}.`,
      problem.problem,
      ...(problem.advice === undefined ? [] : [problem.advice]),
    ]),
  );

/** A refused farm file for people: one line for each problem, in the order given, and a closing count. */
export const tellProblems = (file: string, problems: readonly PlacedProblem[]): string =>
  told(
    problemLines(file, problems),
    `${counted(problems.length, 'problem')}; the farm file was not accepted.`,
  );

/** Why a change cannot be made in the farm file, the same way. */
export const tellUnchanged = (file: string, problems: readonly PlacedProblem[]): string =>
  told(problemLines(file, problems), `${counted(problems.length, 'problem')}; the farm file stays as it is.`);

/** Warnings about an accepted farm file, in the order of its lines, and a closing count. */
export const tellWarnings = (
  file: string,
  warnings: readonly FarmWarning[],
  locate: (path: FarmWarning['path']) => Position,
): string =>
  told(
    warnings
      .map((warning) => ({ warning, position: locate(warning.path) }))
      .toSorted((a, b) => a.position.line - b.position.line || a.position.column - b.position.column)
      .map(({ warning, position }) =>
        line(file, position, pathWords(warning.path), [warning.says, warning.advice]),
      ),
    `${counted(warnings.length, 'warning')}; the farm file was accepted.`,
  );
