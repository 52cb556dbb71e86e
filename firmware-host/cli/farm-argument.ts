import type { Farm } from '../../src/farm/farm.ts';
import { readFarmFile, type ReadFarmFile } from '../farm-file/read.ts';
import { tellProblems } from '../farm-file/tell.ts';
import { Refusal } from './refusal.ts';
import { EXIT } from './exit-code.ts';

export type AcceptedFarm = Extract<ReadFarmFile, { ok: true }>;

/** @throws Refusal with every problem of the file, each at its line and column */
export const acceptedFarm = async (path: string): Promise<AcceptedFarm> => {
  const read = await readFarmFile(path);
  if (read.ok) return read;
  throw new Refusal(tellProblems(read.file, read.problems), EXIT.badInput, read.problems);
};

/** The calendar date that counts as today for this farm: an invented farm brings its own. */
export const todayFor = (farm: Farm, localDate: string): string => farm.invented?.today ?? localDate;
