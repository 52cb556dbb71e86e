import { join } from 'node:path';
import { z } from 'zod';
import { readWhole } from './atomic-file.ts';
import { writeInTime } from './write-in-time.ts';

const reading = z.strictObject({
  name: z.string(),
  quality: z.enum(['good', 'stale', 'suspect', 'absent']),
  value: z.string().nullable(),
  ageSeconds: z.number().nullable(),
  why: z.string().nullable(),
});

const status = z.strictObject({
  farm: z.string(),
  timeZone: z.string(),
  /** Of the process that runs. */
  pid: z.number(),
  /** UTC, by the clock of this machine: what tells whether the host still lives. */
  writtenAt: z.iso.datetime(),
  /** UTC in the shed, which a simulation may take elsewhere. */
  shedTime: z.iso.datetime().nullable(),
  simulated: z.boolean(),
  says: z.string(),
  board: z.strictObject({
    link: z.enum(['up', 'down']),
    says: z.string(),
    warning: z.string().nullable(),
  }),
  pumpAsked: z.enum(['on', 'off']),
  timeLeft: z.strictObject({ minutes: z.number(), bench: z.string().nullable() }),
  benches: z.array(z.strictObject({ name: z.string(), heldPercent: z.number(), dryEdgePercent: z.number() })),
  alarms: z.array(
    z.strictObject({
      kind: z.string(),
      priority: z.enum(['high', 'medium', 'low']),
      state: z.string(),
      text: z.string(),
    }),
  ),
  readings: z.array(reading),
});

/** What the running host says of itself, for whoever asks. */
export type Status = z.infer<typeof status>;

export type StoredStatus =
  | { readonly kind: 'found'; readonly status: Status }
  | { readonly kind: 'none' }
  | { readonly kind: 'unreadable'; readonly why: string };

const statusFile = (folder: string): string => join(folder, 'status.json');

export const readStatus = async (folder: string): Promise<StoredStatus> => {
  try {
    const text = await readWhole(statusFile(folder));
    if (text === null) return { kind: 'none' };
    const read = status.safeParse(JSON.parse(text));
    return read.success
      ? { kind: 'found', status: read.data }
      : { kind: 'unreadable', why: z.prettifyError(read.error) };
  } catch (error) {
    return { kind: 'unreadable', why: error instanceof Error ? error.message : String(error) };
  }
};

/** A host writes every 10 s at least; one that has not for this long is gone or hangs. */
const SILENT_SECONDS = 30;

/** How old it is; less than 0 where the clock was set back since. */
export const ageSecondsOf = ({ writtenAt }: Status, nowMillis: number): number =>
  (nowMillis - Date.parse(writtenAt)) / 1000;

/** Whether it is so old that its host is gone, or hangs, or cannot write. */
export const isSilent = (told: Status, nowMillis: number): boolean =>
  Math.abs(ageSecondsOf(told, nowMillis)) > SILENT_SECONDS;

/** Looked at this often at most. */
const LOOK_MILLIS = 1000;
/**
 * Written this often where nothing new is to be told, as a sign of life and for the readings: each write waits for the disk,
 * and a memory card wears out with writes. `status` takes a host for silent after three times as long.
 */
const WRITE_MILLIS = 10_000;

/** What a person who asks for the status must not be told late. */
const newsOf = ({ says, board, pumpAsked, alarms }: Status): string =>
  JSON.stringify([says, board.link, board.warning, pumpAsked, alarms]);

/**
 * Keeps the file up to date, one write at a time: within a second where the sentence, the alarms, the pump or the board is
 * another. A disk that fails is told once and never stops the host.
 */
export interface StatusKeeper {
  readonly keep: (make: () => Status) => void;
  /** Once the write under way is done. */
  readonly settled: () => Promise<void>;
}

export const createStatusKeeper = (
  folder: string,
  failed: (why: string) => void,
  nowMillis: () => number = () => performance.now(),
): StatusKeeper => {
  let lookedAt = -Infinity;
  let writtenAt = -Infinity;
  let toldNews: string | null = null;
  let writing: Promise<void> | null = null;
  let told = false;
  return {
    keep: (make) => {
      const now = nowMillis();
      if (writing !== null || now - lookedAt < LOOK_MILLIS) return;
      lookedAt = now;
      const made = make();
      const news = newsOf(made);
      if (news === toldNews && now - writtenAt < WRITE_MILLIS) return;
      writtenAt = now;
      toldNews = news;
      writing = writeInTime(statusFile(folder), `${JSON.stringify(made, null, 2)}\n`)
        .catch((error: unknown) => {
          if (!told) failed(error instanceof Error ? error.message : String(error));
          told = true;
        })
        .finally(() => {
          writing = null;
        });
    },
    settled: async () => {
      await writing;
    },
  };
};
