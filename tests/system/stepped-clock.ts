import { execFileSync } from 'node:child_process';
import { mkdtempSync, renameSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A wall clock that a test sets while a process runs; the monotonic clocks of that process stay true. */
export interface SteppedClock {
  /** To be in the environment of the process when it starts. */
  readonly env: Readonly<Record<string, string>>;
  /** From now on the wall clock goes on from there: `@2026-07-14 12:00:00`, or by an offset such as `+2d`. */
  readonly set: (text: string) => void;
}

/** @throws Error where libfaketime is not installed (apt-get install libfaketime) */
export const steppedClock = (text: string): SteppedClock => {
  let library: string | undefined;
  try {
    const files = execFileSync('dpkg', ['-L', 'libfaketime'], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    });
    library = files.split('\n').find((file) => file.endsWith('/libfaketimeMT.so.1'));
  } catch {
    library = undefined;
  }
  if (library === undefined) throw new Error('libfaketime is not installed: apt-get install libfaketime');
  const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-clock-'));
  const file = join(folder, 'now');
  const set = (next: string): void => {
    writeFileSync(`${file}.new`, `${next}\n`);
    renameSync(`${file}.new`, file);
  };
  set(text);
  return {
    env: {
      LD_PRELOAD: library,
      FAKETIME_TIMESTAMP_FILE: file,
      FAKETIME_NO_CACHE: '1',
      DONT_FAKE_MONOTONIC: '1',
    },
    set,
  };
};
