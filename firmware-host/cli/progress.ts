import { SingleBar } from 'cli-progress';
import type { Console } from './console.ts';

/** Nothing is shown for work that ends within this time. */
const QUIET_MILLIS = 1000;

export interface Progress {
  readonly done: (count: number) => void;
  readonly stop: () => void;
}

const SILENT: Progress = {
  done: () => undefined,
  stop: () => undefined,
};

/** A bar on stderr for work longer than a second; nothing off-terminal. */
export const progressOf = (what: string, total: number, console: Console): Progress => {
  if (!console.atTerminal) return SILENT;
  const bar = new SingleBar({
    format: `${what} [{bar}] {value}/{total}`,
    barCompleteChar: '█',
    barIncompleteChar: '·',
    // A cursor that is hidden stays so when Ctrl-C ends the work.
    hideCursor: false,
    clearOnComplete: true,
    stream: process.stderr,
  });
  const begun = performance.now();
  let shown = false;
  return {
    done: (count) => {
      if (!shown && performance.now() - begun > QUIET_MILLIS && count < total) {
        bar.start(total, count);
        shown = true;
      } else if (shown) bar.update(count);
    },
    stop: () => {
      if (shown) bar.stop();
    },
  };
};
