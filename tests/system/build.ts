import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const BUILT = 'dist/main.mjs';
const SOURCE_FOLDERS = ['src', 'sim', 'firmware-host'];
const SOURCE_FILES = ['tsdown.config.ts', 'package-lock.json'];

const changedAt = (file: string): number => statSync(file).mtimeMs;

/** Builds what the system tests run, unless it is newer than every source. */
export default (): void => {
  const sources = SOURCE_FOLDERS.flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((file) => join(folder, file)),
  ).concat(SOURCE_FILES);
  if (existsSync(BUILT) && Math.max(...sources.map(changedAt)) < changedAt(BUILT)) return;
  execFileSync('npm', ['run', 'build'], { stdio: ['ignore', 'ignore', 'inherit'] });
};
