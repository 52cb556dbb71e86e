import type { Farm } from '../../src/farm/farm.ts';
import { parseFarm } from '../../src/farm/parse.ts';
import { textOfFile } from './text.ts';
import { readYaml, type PlacedProblem, type YamlDocument } from './yaml-document.ts';

export type { PlacedProblem, Position } from './yaml-document.ts';

export type ReadFarmFile =
  | {
      readonly ok: true;
      readonly farm: Farm;
      /** The path as it was given. */
      readonly file: string;
      readonly text: string;
      /** Line and column of a path, for warnings about an accepted farm. */
      readonly locate: YamlDocument['locate'];
    }
  | { readonly ok: false; readonly file: string; readonly problems: readonly PlacedProblem[] };

const byPosition = (a: PlacedProblem, b: PlacedProblem): number => a.line - b.line || a.column - b.column;

/** A farm from the text of a farm file, or all its problems in the order of its lines. Never throws for the text. */
export const farmFromText = (text: string, file: string): ReadFarmFile => {
  const yaml = readYaml(text);
  if (!yaml.ok) return { ok: false, file, problems: yaml.problems.toSorted(byPosition) };
  const parsed = parseFarm(yaml.raw);
  if (parsed.ok && yaml.problems.length === 0) {
    return { ok: true, farm: parsed.farm, file, text, locate: yaml.locate };
  }
  const placed = parsed.ok
    ? []
    : parsed.problems.map((problem) => ({ ...problem, ...yaml.locate(problem.path, problem.pointsAt) }));
  return { ok: false, file, problems: [...yaml.problems, ...placed].toSorted(byPosition) };
};

/** A farm from a farm file. What is wrong with the file itself is told at its first line. */
export const readFarmFile = async (path: string): Promise<ReadFarmFile> => {
  const read = await textOfFile(path);
  return read.ok
    ? farmFromText(read.text, path)
    : { ok: false, file: path, problems: [{ ...read.problem, line: 1, column: 1 }] };
};
