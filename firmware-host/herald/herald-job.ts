import type { Farm } from '../../src/farm/farm.ts';
import { monotonicMillis } from '../../src/time/instant.ts';
import { farLines, type LineAsked, type LineSaid } from '../devices/far-line.ts';
import { openChannels } from './channels.ts';
import { toGsm7 } from '../../src/alarm/language/gsm7.ts';
import type { Call } from '../../src/delivery/call.ts';
import type { KeptDelivery } from '../../src/delivery/delivery-restart.ts';
import type { TextCame } from './gsm/gsm-inbox.ts';
import { runHerald } from './herald-run.ts';
import type { HeraldHeard } from '../../src/delivery/heard.ts';
import type { DeadChannel } from '../../src/ports/host-health.ts';
import { readDelivery, writeDelivery } from './kept-file.ts';
import { readSecrets } from './secrets.ts';

/** What the thread is opened with: plain data. Secrets are read inside, and never go between threads. */
export interface HeraldOpening {
  readonly farm: string;
  readonly timeZone: string;
  readonly herald: NonNullable<Farm['herald']>;
  readonly folder: string;
  /** The clock of the host at the zero of `process.hrtime`, which all threads share; `performance.now` starts in each anew. */
  readonly clockAtZero: number;
}

/** What to add to `hrtimeMillis` for the clock of this thread. */
export const clockAtZero = (): number => performance.now() - hrtimeMillis();
export const hrtimeMillis = (): number => Number(process.hrtime.bigint() / 1000n) / 1000;

export type ToHerald =
  | { readonly kind: 'tell'; readonly call: Call }
  | { readonly kind: 'says'; readonly sentence: string }
  | { readonly kind: 'clock'; readonly known: 'known' | 'unknown' }
  /** Of a serial port, which only the main thread can have. */
  | { readonly kind: 'line'; readonly said: LineSaid }
  | { readonly kind: 'close' };

type ForRun = Exclude<ToHerald, { readonly kind: 'line' }>;

export type FromHerald =
  | { readonly kind: 'heard'; readonly heard: HeraldHeard }
  | { readonly kind: 'dead'; readonly dead: readonly DeadChannel[] }
  /** Something that is not a channel: secrets that others can read, a disk that takes nothing. */
  | { readonly kind: 'talk'; readonly text: string }
  /** It still turns, whatever its channels do. */
  | { readonly kind: 'alive' }
  | { readonly kind: 'line'; readonly asked: LineAsked }
  | { readonly kind: 'closed' };

export interface HeraldJob {
  readonly take: (message: ToHerald) => void;
}

/** Whoever feeds the watchdog hears of it this often. */
const ALIVE_MILLIS = 5000;
/** Once in so long at most; what is lost between is told again by the controller. */
const WRITE_MILLIS = 1000;

/** The herald itself, in whatever thread: channels, delivery, and what is kept of it. */
export const heraldJob = (
  { farm, timeZone, herald, folder, clockAtZero: atZero }: HeraldOpening,
  tell: (message: FromHerald) => void,
): HeraldJob => {
  const waiting: ForRun[] = [];
  const lines = farLines((asked) => {
    tell({ kind: 'line', asked });
  });
  let take = (message: ForRun): void => void waiting.push(message);
  let clockIsKnown = true;
  let newest: KeptDelivery | null = null;
  let writing: Promise<void> | null = null;
  let onDisk: Promise<void> = Promise.resolve();
  let toldOfDisk = false;

  const write = (): void => {
    const kept = newest;
    if (kept === null || writing !== null) return;
    newest = null;
    onDisk = writeDelivery(folder, kept).catch((error: unknown) => {
      const code = (error as NodeJS.ErrnoException).code ?? String(error);
      if (!toldOfDisk) tell({ kind: 'talk', text: `What is on its way to people cannot be kept: ${code}` });
      toldOfDisk = true;
    });
    writing = onDisk
      .then(() => new Promise<void>((go) => setTimeout(go, WRITE_MILLIS).unref()))
      .then(() => {
        writing = null;
        write();
      });
  };

  const start = async (): Promise<void> => {
    const secrets = await readSecrets(folder);
    if (secrets.refused !== null) tell({ kind: 'talk', text: secrets.refused });
    const kept = await readDelivery(folder);
    let came = (_text: TextCame): void => undefined;
    const channels = await openChannels({
      farm,
      herald,
      secrets,
      folder,
      toGsm7,
      openLine: lines.open,
      came: (text) => {
        came(text);
      },
    });
    const run = runHerald({
      rota: { people: herald.people, night: herald.night, timeZone },
      channels: channels.all,
      kept,
      heard: (heard) => {
        tell({ kind: 'heard', heard });
      },
      dead: (dead) => {
        tell({ kind: 'dead', dead });
      },
      changed: (delivery) => {
        newest = delivery;
        write();
      },
      hidden: secrets.hidden,
      clockIsKnown: () => clockIsKnown,
      monotonic: () => monotonicMillis(hrtimeMillis() + atZero),
    });
    came = (text) => {
      run.textCame('modem', text);
    };
    take = (message) => {
      switch (message.kind) {
        case 'tell':
          run.tell(message.call);
          return;
        case 'says':
          run.says(message.sentence);
          channels.broker?.says(message.sentence);
          return;
        case 'clock':
          clockIsKnown = message.known === 'known';
          return;
        case 'close':
          void run
            .close()
            .then(() => onDisk)
            .then(() => (newest === null ? undefined : writeDelivery(folder, newest)))
            .catch(() => undefined)
            .then(() => {
              clearInterval(alive);
              tell({ kind: 'closed' });
            });
      }
    };
    for (const message of waiting.splice(0)) take(message);
  };
  const alive = setInterval(() => {
    tell({ kind: 'alive' });
  }, ALIVE_MILLIS);
  alive.unref();
  void start().catch((error: unknown) => {
    // No herald is an alarm, not an end of the floods.
    const why = error instanceof Error ? error.message : String(error);
    tell({ kind: 'talk', text: `The herald could not start: ${why}` });
    tell({ kind: 'dead', dead: [{ name: 'herald', why, since: monotonicMillis(hrtimeMillis() + atZero) }] });
    take = (message) => {
      if (message.kind === 'close') tell({ kind: 'closed' });
    };
    for (const message of waiting.splice(0)) take(message);
  });
  return {
    take: (message) => {
      if (message.kind === 'line') lines.said(message.said);
      else take(message);
    },
  };
};
