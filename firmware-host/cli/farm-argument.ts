import type { Farm } from '../../src/farm/farm.ts';
import { readFarmFile, type ReadFarmFile } from '../farm-file/read.ts';
import { tellProblems } from '../farm-file/tell.ts';
import { goodFarmOf } from '../start/last-good-farm.ts';
import { stateRoot } from '../storage/state-folder.ts';
import type { Console } from './console.ts';
import { Refusal } from './refusal.ts';
import { EXIT } from './exit-code.ts';

export type AcceptedFarm = Extract<ReadFarmFile, { ok: true }>;

/** @throws Refusal with every problem of the file, each at its line and column */
export const acceptedFarm = async (path: string): Promise<AcceptedFarm> => {
  if (path === '') throw new Refusal('found ""; allowed is the path of a farm file.', EXIT.usage);
  const read = await readFarmFile(path);
  if (read.ok) return read;
  throw new Refusal(tellProblems(read.file, read.problems), EXIT.badInput, read.problems);
};

/**
 * For what only tells of a farm: its file, else the last good one that a host ran by, which may well run on.
 * @throws Refusal where there is neither
 */
export const farmToTellOf = async (path: string, console: Console): Promise<AcceptedFarm> => {
  const found = await goodFarmOf(path, stateRoot());
  if (!found.ok) throw new Refusal(found.says, EXIT.badInput, found.problems);
  if (found.warning !== null) console.talk(found.warning);
  return found.accepted;
};

/** The calendar date that counts as today for this farm: an invented farm brings its own. */
export const todayFor = (farm: Farm, localDate: string): string => farm.invented?.today ?? localDate;
