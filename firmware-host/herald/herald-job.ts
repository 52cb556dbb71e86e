import type { Farm } from '../../src/farm/farm.ts';
import { monotonicMillis, wallMillis } from '../../src/time/instant.ts';
import { farLines, type LineAsked, type LineSaid } from '../devices/far-line.ts';
import { openChannels } from './channels.ts';
import { toGsm7 } from '../../src/alarm/language/gsm7.ts';
import type { Call } from '../../src/delivery/call.ts';
import type { LeftDelivery } from '../../src/delivery/delivery-restart.ts';
import type { TextCame } from './gsm/gsm-inbox.ts';
import { runHerald } from './herald-run.ts';
import type { HeraldHeard } from '../../src/delivery/heard.ts';
import type { DeadChannel } from '../../src/ports/host-health.ts';
import { readDelivery, writeDelivery, type StoredDelivery } from './kept-file.ts';
import { readSecrets } from './secrets.ts';
import { monotonicNow } from '../monotonic.ts';
import { absenceOf } from '../start/absence.ts';
import { bootName, type ClockSource } from '../start/clock-source.ts';

/** What the thread is opened with: plain data. Secrets are read inside, and never go between threads. */
export interface HeraldOpening {
  readonly farm: string;
  readonly timeZone: string;
  readonly language: Farm['language'];
  readonly herald: NonNullable<Farm['herald']>;
  readonly folder: string;
  /** What has set the clock of this machine, as the host goes by it: with another answer the two would not agree on how long nobody was there. */
  readonly source: ClockSource;
  /** Whether the host believes the wall clock, before its first word. */
  readonly clock: 'known' | 'unknown';
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
/** What became of calls is written once in so long at most: after a crash some go out twice. A new call is written at once. */
const WRITE_MILLIS = 1000;

/** The herald itself, in whatever thread: channels, delivery, and what is kept of it. */
export const heraldJob = (
  { farm, timeZone, language, herald, folder, source, clock, clockAtZero: atZero }: HeraldOpening,
  tell: (message: FromHerald) => void,
): HeraldJob => {
  const waiting: ForRun[] = [];
  const lines = farLines((asked) => {
    tell({ kind: 'line', asked });
  });
  let take = (message: ForRun): void => void waiting.push(message);
  let clockIsKnown = clock === 'known';
  let newest: StoredDelivery | null = null;
  /** The disk has one in hand, or has had one of late. */
  let disk: 'idle' | 'writes' | 'rests' = 'idle';
  let rest: NodeJS.Timeout | undefined;
  let isNewCall = false;
  let onDisk: Promise<void> = Promise.resolve();
  let toldOfDisk = false;

  const write = (): void => {
    const kept = newest;
    if (kept === null || disk === 'writes' || (disk === 'rests' && !isNewCall)) return;
    clearTimeout(rest);
    newest = null;
    isNewCall = false;
    disk = 'writes';
    onDisk = writeDelivery(folder, kept)
      .catch((error: unknown) => {
        const code = (error as NodeJS.ErrnoException).code ?? String(error);
        if (!toldOfDisk) tell({ kind: 'talk', text: `What is on its way to people cannot be kept: ${code}` });
        toldOfDisk = true;
      })
      .then(() => {
        disk = 'rests';
        rest = setTimeout(() => {
          disk = 'idle';
          write();
        }, WRITE_MILLIS);
        rest.unref();
        write();
      });
  };

  const lastWritten = async (): Promise<void> => {
    while (disk === 'writes') await onDisk;
    clearTimeout(rest);
    if (newest !== null) await writeDelivery(folder, newest);
  };

  /** What the process before this one left, and how long ago: by the same rule as the host, whose alarms an "ok" is held against. */
  const left = async (boot: string | null): Promise<LeftDelivery | null> => {
    const stored = await readDelivery(folder);
    if (stored === null) return null;
    const { at, machine } = stored;
    const { away } = absenceOf(
      machine === null
        ? { boot: null, at }
        : { boot: machine.boot, at: { ...at, monotonic: machine.monotonic } },
      boot,
      { monotonic: monotonicNow(), wall: clockIsKnown ? wallMillis(Date.now()) : 'unknown' },
      source,
    );
    return { ...stored, awayMinutes: away };
  };

  const start = async (): Promise<void> => {
    const secrets = await readSecrets(folder);
    if (secrets.refused !== null) tell({ kind: 'talk', text: secrets.refused });
    const boot = await bootName();
    let came = (_text: TextCame): void => undefined;
    const channels = await openChannels({
      farm,
      herald,
      secrets,
      folder,
      toGsm7,
      openLine: lines.open,
      as: 'host',
      came: (text) => {
        came(text);
      },
    });
    const run = runHerald({
      rota: { people: herald.people, night: herald.night, timeZone },
      language,
      channels: channels.all,
      left: await left(boot),
      heard: (heard) => {
        tell({ kind: 'heard', heard });
      },
      dead: (dead) => {
        tell({ kind: 'dead', dead });
      },
      changed: (delivery) => {
        newest = { ...delivery, machine: boot === null ? null : { boot, monotonic: monotonicNow() } };
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
          // The controller tells what is not of high priority only once.
          isNewCall = true;
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
            .then(lastWritten)
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
