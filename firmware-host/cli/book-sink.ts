import { closeSync, existsSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import type { Console } from './console.ts';
import { EXIT } from './exit-code.ts';
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

/** Refuses to take the place of another file. @throws Refusal */
export const refuseExisting = (path: string, option: string): void => {
  if (existsSync(path)) {
    throw new Refusal(
      `${option} ${path}: a file of that name is there already, and it is left as it is. Name another one.`,
      EXIT.usage,
    );
  }
};

const whyOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** A new file that is there whole or not at all. @throws Refusal */
export const toFile = (path: string): Sink => {
  refuseExisting(path, '--out');
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
