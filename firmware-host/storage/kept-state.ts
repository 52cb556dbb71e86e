import { z } from 'zod';
import type { Away, Boot, KeptState } from '../../src/controller.ts';
import { isPlausible } from '../../src/time/clock-trust.ts';
import { minutesBetween, type Now } from '../../src/time/instant.ts';
import type { ClockSource } from '../start/clock-source.ts';
import { keptSchema } from './kept-schema.ts';

/** Raised whenever the meaning of what is kept changes; another version is not guessed at. */
const VERSION = 1;

const envelope = z.object({
  version: z.literal(VERSION),
  /** The kernel's name for the time since the machine was started; null where it has none. */
  boot: z.string().nullable(),
  state: keptSchema,
});

export interface StoredState {
  readonly boot: string | null;
  readonly state: KeptState;
}

export type ReadKept =
  | { readonly kind: 'found'; readonly stored: StoredState }
  | { readonly kind: 'none' }
  /** Not believed; the run begins as if nothing were known, which is the wetter side. */
  | { readonly kind: 'unusable'; readonly why: string };

/** The text that a journal keeps. */
export const keptText = (state: KeptState, boot: string | null): string =>
  JSON.stringify({ version: VERSION, boot, state });

/** Never throws, whatever the text. */
export const readKept = (text: string | null): ReadKept => {
  if (text === null) return { kind: 'none' };
  try {
    const read = envelope.safeParse(JSON.parse(text));
    if (read.success) return { kind: 'found', stored: read.data };
    return { kind: 'unusable', why: z.prettifyError(read.error) };
  } catch (error) {
    return { kind: 'unusable', why: error instanceof Error ? error.message : String(error) };
  }
};

export interface Absence {
  readonly away: Away;
  readonly boot: Boot;
}

/**
 * How long nobody was there. Since the same start of the machine its monotonic clock tells, which includes suspend; else the
 * wall clock, where both ends are plausible and something better than the last time on the disk has set it.
 */
export const absenceOf = (
  { boot, state: { at } }: StoredState,
  bootNow: string | null,
  now: Now,
  source: ClockSource,
): Absence => {
  if (boot !== null && boot === bootNow) {
    const minutes = minutesBetween(at.monotonic, now.monotonic);
    return { away: minutes < 0 ? 'unknown' : minutes, boot: 'same' };
  }
  if (source === 'unknown' || !isPlausible(at.wall) || !isPlausible(now.wall) || now.wall < at.wall) {
    return { away: 'unknown', boot: 'another' };
  }
  return { away: (now.wall - at.wall) / 60_000, boot: 'another' };
};
