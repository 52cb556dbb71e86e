/** One thing wrong with a weather file, told so that the grower can mend it. */
export interface WeatherProblem {
  /** As an editor counts them, the header being line 1; null when the whole file is meant. */
  readonly line: number | null;
  /** As the header names it; null when no one column is meant. */
  readonly column: string | null;
  readonly found: string;
  readonly allowed: string;
  readonly remedy: string;
}

/** So many are told; a file wrong throughout is not told line by line. */
export const PROBLEMS_TOLD_MAX = 20;

/** Counts every problem and keeps the first ones. */
export interface Problems {
  readonly add: (problem: WeatherProblem) => void;
  readonly told: () => readonly WeatherProblem[];
  readonly count: () => number;
}

export const collectProblems = (): Problems => {
  const kept: WeatherProblem[] = [];
  let count = 0;
  return {
    add: (problem) => {
      count += 1;
      if (kept.length < PROBLEMS_TOLD_MAX) kept.push(problem);
    },
    told: () => [...kept].sort((a, b) => (a.line ?? 0) - (b.line ?? 0)),
    count: () => count,
  };
};

/** `line 7, column temperature: found "mild"; allowed: a number. Write the number …` */
export const problemText = ({ line, column, found, allowed, remedy }: WeatherProblem): string => {
  const where = [line === null ? null : `line ${line}`, column === null ? null : `column ${column}`];
  const place = where.filter((part) => part !== null).join(', ');
  return `${place === '' ? 'the file' : place}: found ${found}; allowed: ${allowed}. ${remedy}`;
};
