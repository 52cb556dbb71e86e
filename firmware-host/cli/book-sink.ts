import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import type { Console } from './console.ts';
import { EXIT } from './exit-code.ts';
import { refuseUnlessNew } from './new-file.ts';
import { Refusal } from './refusal.ts';

/** Where lines of an export go, one by one. */
export interface Sink {
  readonly line: (text: string) => void;
  /** All is written. @throws Refusal */
  readonly done: () => void;
  /** Nothing of it stays. */
  readonly giveUp: () => void;
}

export const toConsole = (console: Console): Sink => ({
  line: console.out,
  done: () => undefined,
  giveUp: () => undefined,
});

const whyOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** A new file that is there whole or not at all. @throws Refusal */
export const toFile = (path: string): Sink => {
  refuseUnlessNew('--out', path, 'book.csv');
  const fresh = `${path}.${process.pid}.new`;
  const refusing = <Result>(act: () => Result): Result => {
    try {
      return act();
    } catch (error) {
      rmSync(fresh, { force: true });
      throw new Refusal(`--out ${path}: it cannot be written: ${whyOf(error)}`, EXIT.badInput);
    }
  };
  const file = refusing(() => openSync(fresh, 'wx'));
  return {
    line: (text) => {
      refusing(() => writeSync(file, `${text}\n`));
    },
    done: () => {
      refusing(() => {
        fsyncSync(file);
        closeSync(file);
        renameSync(fresh, path);
      });
    },
    giveUp: () => {
      rmSync(fresh, { force: true });
    },
  };
};
