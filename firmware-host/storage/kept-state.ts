import { z } from 'zod';
import type { KeptState } from '../../src/controller.ts';
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
