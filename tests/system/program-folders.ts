import {
  appendFileSync,
  cpSync,
  lutimesSync,
  mkdirSync,
  readFileSync,
  readlinkSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join, resolve } from 'node:path';
import { ownFolder } from './rillkeeper.ts';

/** A folder of programs as on a shed's computer, and what tests ask of it. */
export interface ProgramFolders {
  readonly root: string;
  readonly path: (name: string) => string;
  /** Where a link leads; null where there is none. */
  readonly link: (name: string) => string | null;
  /** As if the folder in force had been that for an hour. */
  readonly prove: () => void;
}

/** The program as it is built here, as a folder of that version, with the packages of this project. */
export const layProgram = (
  root: string,
  version: string,
  change: (folder: string) => void = () => undefined,
): void => {
  const folder = join(root, version);
  mkdirSync(folder);
  const described = JSON.parse(readFileSync('package.json', 'utf8')) as object;
  writeFileSync(join(folder, 'package.json'), JSON.stringify({ ...described, version }));
  cpSync('dist', join(folder, 'dist'), { recursive: true });
  symlinkSync(resolve('node_modules'), join(folder, 'node_modules'));
  change(folder);
};

/** Throws as it is loaded by `run`, and by nothing else: what no check before the first start shows. */
export const throwsAtStart = (folder: string): void => {
  const main = join(folder, 'dist', 'main.mjs');
  const text = readFileSync(main, 'utf8').replace(/^#!.*\n/, '');
  writeFileSync(main, "if (process.argv[2] === 'run') throw new Error('a made defect');\n");
  appendFileSync(main, text);
};

/** 0.1.0 is in force. */
export const programFolders = (): ProgramFolders => {
  const root = ownFolder();
  layProgram(root, '0.1.0');
  symlinkSync('0.1.0', join(root, 'current'));
  return {
    root,
    path: (name) => join(root, name),
    link: (name) => {
      try {
        return readlinkSync(join(root, name));
      } catch {
        return null;
      }
    },
    prove: () => {
      const anHourAgo = Date.now() / 1000 - 3600;
      lutimesSync(join(root, 'current'), anHourAgo, anHourAgo);
    },
  };
};
