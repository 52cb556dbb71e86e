import { randomUUID } from 'node:crypto';
import { access, readFile } from 'node:fs/promises';
import type { SetAside } from '../../../src/journal/disk.ts';
import type { Now } from '../../../src/time/instant.ts';
import type { KeeperOpened } from './book-keeper.ts';
import { bookPath } from './book-path.ts';
import type { FoundInBook } from './found.ts';
import type { JournalClient } from './client.ts';
import { createRecorder } from './recorder.ts';
import { USUAL_LIMITS, type Limits } from './retention.ts';
import { threadDisk } from './thread-disk.ts';

export type { JournalClient } from './client.ts';

/** How the host before this one left the book. Of one that cannot be opened nothing is known: no clean stop, nothing kept. */
export interface Found extends FoundInBook {
  readonly lastSeq: number;
  readonly setAside: SetAside | null;
}

export interface OpenedJournal {
  readonly found: Found;
  /** Of a book that has not opened in time `found` says nothing: this resolves once it has after all; null where it was in time. */
  readonly late: Promise<Found> | null;
  readonly client: JournalClient;
}

export interface JournalOptions {
  readonly now: () => Now;
  /** Told the state that was kept, once, before anything is entered behind it: by that the clock of `now` is believed or not. */
  readonly found?: (keptState: string | null) => void;
  readonly limits?: Limits;
  /** A start of the host does not wait longer for its book. */
  readonly patienceMillis?: number;
  /** The file of the thread, where it does not stand beside the program. */
  readonly thread?: string;
}

/** A slow card reads a short book in half a second; without it the host begins with nothing kept. */
const PATIENCE_MILLIS = 5000;

const NO_CLEAN_STOP = 'the host before this one ended without a word: power, a crash, or an end by force';

const UNKNOWN: Found = {
  lastSeq: 0,
  cleanStop: false,
  lastEntryWall: 'unknown',
  keptState: null,
  setAside: null,
};

/** Where there is no book yet nothing was kept, however long the disk takes to begin one. */
const NOTHING: Found = { ...UNKNOWN, lastEntryWall: null };

/** Of this start of the machine; where the system does not tell, of this process. */
const bootId = (): Promise<string> =>
  readFile('/proc/sys/kernel/random/boot_id', 'utf8').then(
    (text) => text.trim(),
    () => randomUUID(),
  );

const isMissing = (path: string): Promise<boolean> =>
  access(path).then(
    () => false,
    (error: unknown) => error instanceof Error && 'code' in error && error.code === 'ENOENT',
  );

/** Opens the book of a state folder in a thread of its own. A book that cannot be opened never stops the host: the client then says so, and tries again. */
export const openJournal = async (folder: string, options: JournalOptions): Promise<OpenedJournal> => {
  const [boot, isNew] = await Promise.all([bootId(), isMissing(bookPath(folder))]);
  const disk = threadDisk({ folder, boot, limits: options.limits ?? USUAL_LIMITS }, options.thread);
  let tell: (found: Found) => void = () => undefined;
  const read = new Promise<Found>((known) => {
    tell = known;
  });
  let isRead = false;
  const tellKept = (opened: KeeperOpened): void => {
    if (opened.kind === 'open' && !isRead) options.found?.(opened.keptState);
  };
  /** The first opening that comes to something tells how the book was left; later ones tell of this host only. */
  const seen = (opened: KeeperOpened): void => {
    if (opened.kind === 'refused' || isRead) return;
    isRead = true;
    const { lastSeq, cleanStop, lastEntryWall, keptState, setAside } = opened;
    if (lastEntryWall !== null && !cleanStop) {
      const { monotonic: at, wall } = options.now();
      client.append([{ kind: 'gap-recorded', lastWall: lastEntryWall, why: NO_CLEAN_STOP, at, wall }]);
    }
    tell({ lastSeq, cleanStop, lastEntryWall, keptState, setAside });
  };
  const recorder = createRecorder(
    {
      ...disk,
      reopen: async (lastSeq) => {
        const opened = await disk.reopen(lastSeq);
        tellKept(opened);
        seen(opened);
        return opened;
      },
    },
    options.now,
  );
  const { client } = recorder;
  const opening = disk.openFirst().then((opened) => {
    tellKept(opened);
    recorder.opened(opened);
    seen(opened);
    return opened;
  });
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<null>((none) => {
    timer = setTimeout(none, options.patienceMillis ?? PATIENCE_MILLIS, null);
  });
  const opened = await Promise.race([opening, late]);
  clearTimeout(timer);
  if (opened?.kind === 'open') return { found: await read, late: null, client };
  return isNew ? { found: NOTHING, late: null, client } : { found: UNKNOWN, late: read, client };
};
