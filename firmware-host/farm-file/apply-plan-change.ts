import { constants, type Stats } from 'node:fs';
import { access, lstat, realpath, stat } from 'node:fs/promises';
import { isDeepStrictEqual } from 'node:util';
import { writeWhole } from '../storage/atomic-file.ts';
import { changedFarm, changedText, type ChangedText, type PlanChange } from './plan-change.ts';
import { farmFromText, type ReadFarmFile } from './read.ts';
import { tellUnchanged } from './tell.ts';
import { FILE_BYTES_MAX, textOfFile } from './text.ts';

/** A farm file as it was read and accepted before the change was looked for. */
export type KnownFarmFile = Extract<ReadFarmFile, { ok: true }>;

export interface AppliedChange {
  /** Unless `written`, the file stays as it was. */
  readonly kind: 'written' | 'nothing to write' | 'refused';
  /** What was done, or why nothing was and what to do; for people. */
  readonly says: string;
}

/** Any of the three sets of bits that let somebody write. */
const WRITE_BITS = 0o222;

/**
 * The text with the change made, proven by the farm's own checks: it is accepted, and holds the same farm but for
 * the numbers of the change. This is the text to show, and the only one to write.
 */
export const checkedText = (known: KnownFarmFile, change: PlanChange): ChangedText => {
  const made = changedText(known.text, change);
  if (!made.ok) return made;
  const read = farmFromText(made.text, known.file);
  if (!read.ok) return read;
  if (isDeepStrictEqual(read.farm, changedFarm(known.farm, change))) return made;
  return {
    ok: false,
    problems: [
      {
        path: ['dayPlan'],
        found: 'another farm than the change asks for',
        allowed: 'the numbers of the change and nothing else',
        problem: 'The file is written in a way that this change would alter elsewhere too.',
        advice: 'Change the numbers by hand.',
        ...known.locate(['dayPlan']),
      },
    ],
  };
};

/** @throws the error itself where it is a defect of ours and not of the file system */
const wordsOf = (error: unknown): string => {
  if (!(error instanceof Error && 'code' in error)) throw error;
  return error.message;
};

interface Refused {
  readonly ok: false;
  readonly why: string;
}

interface Place {
  readonly ok: true;
  /** Where the file really stands: a link stays a link, and what it leads to is replaced. */
  readonly path: string;
  readonly isLinked: boolean;
  /** Whose it is, and who may do what. */
  readonly kept: Stats;
}

/** @throws Error of the file system */
const writablePlace = async (file: string): Promise<Place | Refused> => {
  const path = await realpath(file);
  const kept = await stat(path);
  // Asked for by itself: a rename would replace a read-only file, and the administrator may write any.
  if ((kept.mode & WRITE_BITS) === 0)
    return { ok: false, why: 'The file is read-only. If its plan may be changed, make it writable first.' };
  await access(path, constants.W_OK);
  return { ok: true, path, isLinked: (await lstat(file)).isSymbolicLink(), kept };
};

/** All that is to be written, if the disk still holds the text that the change was made for. */
const wholeFor = async (
  known: KnownFarmFile,
  text: string,
): Promise<{ readonly ok: true; readonly whole: string } | Refused> => {
  const now = await textOfFile(known.file);
  if (!now.ok) return { ok: false, why: `Found ${now.problem.found}. ${now.problem.problem}` };
  if (now.text !== known.text)
    return { ok: false, why: 'The file was changed after it was read. Look at it, then begin again.' };
  const whole = now.byteOrderMark + text;
  return Buffer.byteLength(whole) <= FILE_BYTES_MAX
    ? { ok: true, whole }
    : {
        ok: false,
        why: `With the change it would be longer than the ${FILE_BYTES_MAX} bytes that are read.`,
      };
};

/**
 * Writes the change into the farm file, whole or not at all; every comment stays, and its owner and mode.
 * Never throws for what the file or the disk does.
 */
export const applyPlanChange = async (known: KnownFarmFile, change: PlanChange): Promise<AppliedChange> => {
  const refused = (why: string): AppliedChange => ({
    kind: 'refused',
    says: `${known.file}: ${why} The farm file stays as it is.`,
  });
  const made = checkedText(known, change);
  if (!made.ok) return { kind: 'refused', says: tellUnchanged(known.file, made.problems) };
  if (made.text === known.text)
    return { kind: 'nothing to write', says: `${known.file}: these numbers stand there already.` };
  try {
    const place = await writablePlace(known.file);
    if (!place.ok) return refused(place.why);
    // Last before the write, so that what an editor saved meanwhile is not lost.
    const fresh = await wholeFor(known, made.text);
    if (!fresh.ok) return refused(fresh.why);
    await writeWhole(place.path, fresh.whole, place.kept);
    const target = place.isLinked ? ` (${place.path})` : '';
    return {
      kind: 'written',
      says: `${known.file}${target}: the new numbers are written, and nothing else was touched. A host that runs keeps the old plan until it is started again.`,
    };
  } catch (error) {
    return refused(`It cannot be written (${wordsOf(error)}).`);
  }
};
