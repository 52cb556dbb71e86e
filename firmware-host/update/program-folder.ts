import { execFile } from 'node:child_process';
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { readWhole } from '../storage/atomic-file.ts';

/** One for the program and each of its threads, which look for each other by name. */
const BUILT = ['main.mjs', 'worker.mjs', 'journal.mjs', 'herald.mjs'] as const;
/** `check` of a farm file takes two seconds on a small computer; a program that hangs is none to change to. */
const TRIAL_MILLIS_MAX = 60_000;

const packageFile = z.object({
  name: z.string(),
  version: z.string().regex(/^\d+\.\d+\.\d+/),
  engines: z.object({ node: z.string() }),
});

/** What is in a folder that may become the program, or what keeps it from it, in words for a person. */
export type ProgramFolder =
  { readonly kind: 'whole'; readonly version: string } | { readonly kind: 'refused'; readonly why: string };

const refused = (why: string): ProgramFolder => ({ kind: 'refused', why });

/** `>=20.19` as its numbers; null where it is written in another way, which no version of this program does. */
const leastVersion = (range: string): readonly number[] | null => {
  const [, numbers] = /^>=\s*(\d+(?:\.\d+){0,2})$/.exec(range.trim()) ?? [];
  return numbers === undefined ? null : numbers.split('.').map(Number);
};

/** Whether this version, such as `v20.20.2`, is at least that. */
const isAtLeast = (version: string, least: readonly number[]): boolean => {
  const own = version.replace(/^v/, '').split('.').map(Number);
  for (const [place, wanted] of least.entries()) {
    const found = own[place] ?? 0;
    if (found !== wanted) return found > wanted;
  }
  return true;
};

interface Tried {
  readonly isGood: boolean;
  /** What it wrote. */
  readonly says: string;
}

/** Under the Node.js of this process. */
const tried = (args: readonly string[], cwd: string): Promise<Tried> =>
  new Promise((end) => {
    const options = { cwd, timeout: TRIAL_MILLIS_MAX, killSignal: 'SIGKILL' } as const;
    execFile(process.execPath, args, options, (error, stdout, stderr) => {
      const says = `${stderr}\n${stdout}`.trim();
      if (error === null) end({ isGood: true, says });
      else if (error.killed === true)
        end({ isGood: false, says: `no answer within ${TRIAL_MILLIS_MAX / 1000} s` });
      else end({ isGood: false, says: says === '' ? error.message : says });
    });
  });

/** The packages with a part in machine code: one built for another computer or another Node.js does not load. */
const LOADS = `
  const Sqlite = require('better-sqlite3');
  new Sqlite(':memory:').close();
  require('serialport');`;

const fileMissing = async (folder: string): Promise<string | null> => {
  for (const name of BUILT) {
    const file = join('dist', name);
    const found = await stat(join(folder, file)).catch(() => null);
    if (found?.isFile() !== true) return file;
  }
  return null;
};

/**
 * Looks whether a folder holds a whole program of this kind that runs on this machine and takes this farm file. Changes
 * nothing. `farmFile` is an absolute path. @throws Error when a file is there and cannot be read
 */
export const lookInto = async (folder: string, farmFile: string): Promise<ProgramFolder> => {
  const found = await stat(folder).catch(() => null);
  if (found === null) return refused('there is no such folder');
  if (!found.isDirectory())
    return refused('it is a file; the folder with package.json, dist and node_modules is wanted');
  const text = await readWhole(join(folder, 'package.json'));
  if (text === null) return refused('it holds no package.json, so it is no folder of rillkeeper');
  const described = packageFile.safeParse(parsed(text));
  if (!described.success) return refused('its package.json does not say name, version and engines');
  const { name, version, engines } = described.data;
  if (name !== 'rillkeeper') return refused(`it is the program ${name}, not rillkeeper`);
  const least = leastVersion(engines.node);
  if (least === null || !isAtLeast(process.version, least)) {
    return refused(`version ${version} wants Node.js ${engines.node}, and this one is ${process.version}`);
  }
  const missing = await fileMissing(folder);
  if (missing !== null) return refused(`${missing} is missing, so it was not copied whole or not built`);
  const loaded = await tried(['--input-type=commonjs', '--eval', LOADS], folder);
  if (!loaded.isGood) {
    return refused(`its packages do not load on this machine; install them in it (npm ci): ${loaded.says}`);
  }
  const checked = await tried([join(folder, 'dist', 'main.mjs'), 'check', farmFile], folder);
  if (!checked.isGood) return refused(`its check of ${farmFile} fails: ${checked.says}`);
  return { kind: 'whole', version };
};

const parsed = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    // As good as a file that says nothing.
    return null;
  }
};
