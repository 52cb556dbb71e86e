import { execFile, execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { promisify } from 'node:util';

/** The firmware's own sources, built for this machine and run: what they print is what they do. */

const CORE = 'firmware-host/board-sketch/core';
/** As the board's, and every mistake that the compiler can find; packed structs are read unaligned on purpose. */
const FLAGS = [
  '-std=c++14',
  '-Wall',
  '-Wextra',
  '-Wconversion',
  '-Wshadow',
  '-Werror',
  '-fno-exceptions',
  '-fno-rtti',
  `-I${CORE}`,
];
export const CHECKED = [
  '-O1',
  '-fsanitize=undefined',
  '-fno-sanitize=alignment',
  '-fno-sanitize-recover=all',
];
const RUN_MILLIS = 300_000;
const OUTPUT_BYTES = 64 * 1024 * 1024;

const run = promisify(execFile);

/** @throws Error that names the package when there is no compiler */
const assertCompiler = (): void => {
  try {
    execFileSync('g++', ['--version'], { stdio: 'ignore' });
  } catch {
    throw new Error('these tests compile the firmware for this machine: install g++ (Debian package g++)');
  }
};

export interface Programs {
  /** Lines that the program printed; arguments as it takes them. */
  readonly lines: (source: string, ...args: readonly string[]) => Promise<readonly string[]>;
  /** Lines that it printed when given these. */
  readonly answers: (source: string, given: readonly string[]) => readonly string[];
  readonly remove: () => void;
}

/** Builds each source to a program of its own, two at a time. */
export const compiled = async (
  sources: readonly string[],
  flags: readonly string[] = CHECKED,
): Promise<Programs> => {
  assertCompiler();
  const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-cpp-'));
  const programOf = (source: string): string => join(folder, basename(source, '.cpp'));
  const waiting = [...sources];
  const build = async (): Promise<void> => {
    for (let source = waiting.shift(); source !== undefined; source = waiting.shift())
      await run('g++', [...FLAGS, ...flags, source, '-o', programOf(source)]);
  };
  await Promise.all([build(), build()]);
  return {
    lines: async (source, ...args) => {
      const options = { timeout: RUN_MILLIS, maxBuffer: OUTPUT_BYTES };
      const { stdout } = await run(programOf(source), [...args], options);
      return stdout.split('\n').filter((line) => line !== '');
    },
    answers: (source, given) => {
      const options = { timeout: RUN_MILLIS, maxBuffer: OUTPUT_BYTES, encoding: 'utf8' } as const;
      const printed = execFileSync(programOf(source), { ...options, input: `${given.join('\n')}\n` });
      return printed.split('\n').filter((line) => line !== '');
    },
    remove: () => {
      rmSync(folder, { recursive: true, force: true });
    },
  };
};

/** One fact as a test program prints it: `ok <title>` or `not ok <title>: <what>`. */
export interface Fact {
  readonly title: string;
  readonly failure: string | null;
}

/** @throws Error for a line that is no fact: a program that broke off has proven nothing */
export const factOf = (line: string): Fact => {
  if (line.startsWith('ok ')) return { title: line.slice('ok '.length), failure: null };
  const told = /^not ok (.*?): (.*)$/.exec(line);
  if (told === null) throw new Error(`a test program printed something else than a fact: ${line}`);
  const [, title = '', failure = ''] = told;
  return { title, failure };
};
