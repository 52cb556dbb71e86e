import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export const RIBEIRA = 'docs/examples/ribeira.yaml';
export const SEATTLE = 'docs/examples/seattle.yaml';

/** How a command ended, and all it wrote. */
export interface Ended {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: string;
  readonly stderr: string;
  readonly seconds: number;
}

export interface Running {
  readonly child: ChildProcess;
  readonly ended: Promise<Ended>;
  /** Resolves once stdout holds the text; never when it does not come. */
  readonly said: (text: string) => Promise<void>;
  /** The same for stderr. */
  readonly talked: (text: string) => Promise<void>;
}

/** Where the commands of this test file keep their state. */
export const STATE = mkdtempSync(join(tmpdir(), 'rillkeeper-state-'));
/** No command outlives its test. */
const LONGEST_MILLIS = 55_000;

/** Nor the process of its tests. */
const left = new Set<ChildProcess>();
process.once('exit', () => {
  for (const child of left) child.kill('SIGKILL');
});

const spawned = (
  stdin: 'ignore' | 'pipe',
  longestMillis: number,
  args: readonly string[],
  env: Readonly<Record<string, string>> = {},
): Running => {
  const begun = performance.now();
  const child = spawn(process.execPath, ['dist/main.mjs', ...args], {
    stdio: [stdin, 'pipe', 'pipe'],
    env: { ...process.env, RILLKEEPER_STATE: STATE, ...env },
    timeout: longestMillis,
    killSignal: 'SIGKILL',
  });
  left.add(child);
  child.once('exit', () => left.delete(child));
  const text = { stdout: '', stderr: '' };
  const waiting = new Set<() => void>();
  for (const name of ['stdout', 'stderr'] as const) {
    child[name]?.setEncoding('utf8').on('data', (part: string) => {
      text[name] += part;
      waiting.forEach((look) => {
        look();
      });
    });
  }
  const ended = new Promise<Ended>((end, fail) => {
    child.on('error', fail);
    child.on('close', (code, signal) => {
      end({ code, signal, ...text, seconds: (performance.now() - begun) / 1000 });
    });
  });
  const holds =
    (name: 'stdout' | 'stderr') =>
    (wanted: string): Promise<void> =>
      new Promise((heard) => {
        const look = (): void => {
          if (!text[name].includes(wanted)) return;
          waiting.delete(look);
          heard();
        };
        waiting.add(look);
        look();
      });
  return { child, ended, said: holds('stdout'), talked: holds('stderr') };
};

/** Starts the built command line as a child process, with both outputs piped. */
export const startedWith = (stdin: 'ignore' | 'pipe', ...args: readonly string[]): Running =>
  spawned(stdin, LONGEST_MILLIS, args);

/** For a test that is given up to three times the usual time. */
export const startedLong = (...args: readonly string[]): Running =>
  spawned('ignore', 3 * LONGEST_MILLIS, args);

/** The same in an environment that is made worse. */
export const startedAmid = (env: Readonly<Record<string, string>>, ...args: readonly string[]): Running =>
  spawned('ignore', 3 * LONGEST_MILLIS, args, env);

/** With nothing to read. */
export const started = (...args: readonly string[]): Running => startedWith('ignore', ...args);

export const rillkeeper = (...args: readonly string[]): Promise<Ended> => started(...args).ended;

export const linesOf = (text: string): readonly string[] => text.split('\n').filter((line) => line !== '');

/** A folder of this test file's own. */
export const ownFolder = (): string => mkdtempSync(join(tmpdir(), 'rillkeeper-test-'));

/** The example farm with one stretch of its text replaced, and the line on which that stretch begins. */
export const farmTextWith = (from: string, to: string): { readonly text: string; readonly line: number } => {
  const text = readFileSync(RIBEIRA, 'utf8');
  const at = text.indexOf(from);
  if (at === -1) throw new Error(`the example farm does not hold ${from}`);
  return { text: text.replace(from, () => to), line: text.slice(0, at).split('\n').length };
};

/**
 * The example farm made real under a name, so that it has a state folder of its own: what one host knew the next one of
 * that farm knows. It calls nobody.
 */
export const realFarmText = (name: string): string =>
  farmTextWith('invented:\n  today: 2026-07-14', '#')
    .text.replace('farm: Ribeira', `farm: ${name}`)
    .replace(/^herald:\n(?: {2}.*\n)+/m, '');

export const written = (folder: string, name: string, content: string | Uint8Array): string => {
  const file = join(folder, name);
  writeFileSync(file, content);
  return file;
};
