import type { Batch } from '../../../src/journal/disk.ts';
import { createBookKeeper, type KeeperAsked, type KeeperOpened } from './book-keeper.ts';

/** What the host asks of the thread; each is answered once, in order. */
export type Asked =
  | { readonly kind: 'open'; readonly lastSeq: number | null; readonly nowMillis: number }
  | { readonly kind: 'write'; readonly batch: Batch }
  | { readonly kind: 'close' };

/** Between two steps of tidying: a write that comes meanwhile goes first. */
const STEP_MILLIS = 100;
/** When there was nothing to do. */
const LOOK_MILLIS = 60_000;

/** Answers what is asked, and tidies while nothing is. */
export const serveBook = (
  opening: KeeperAsked,
): { readonly ask: (asked: Asked) => unknown; readonly end: () => void } => {
  const keeper = createBookKeeper(opening);
  let timer: NodeJS.Timeout | undefined;
  const tendIn = (millis: number): void => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      tendIn(keeper.tend() === 'did-some' ? STEP_MILLIS : LOOK_MILLIS);
    }, millis);
    timer.unref();
  };
  const end = (): void => {
    clearTimeout(timer);
    keeper.close();
  };
  return {
    ask: (asked) => {
      switch (asked.kind) {
        case 'open': {
          const opened: KeeperOpened = keeper.open(asked.lastSeq, asked.nowMillis);
          tendIn(STEP_MILLIS);
          return opened;
        }
        case 'write':
          return keeper.write(asked.batch);
        case 'close':
          end();
          return null;
      }
    },
    end,
  };
};
