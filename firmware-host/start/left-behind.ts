import { existsSync } from 'node:fs';
import { bookPath } from '../storage/journal/book-path.ts';
import { earlierStateFolder, stateFolder } from '../storage/state-folder.ts';

/**
 * What is told of what hosts knew of this farm under the name that its file had before (holds, alarms, calibration, secrets), where
 * that has another folder; null where nothing is left behind, and once a book has been begun under the new name.
 */
export const leftBehind = (
  farm: string,
  before: string | null,
  env: NodeJS.ProcessEnv = process.env,
): string | null => {
  const folder = stateFolder(farm, env);
  if (before === null || existsSync(bookPath(folder))) return null;
  const old = [stateFolder(before, env), earlierStateFolder(before, env)].find(
    (path) => path !== folder && existsSync(bookPath(path)),
  );
  return old === undefined
    ? null
    : `What hosts knew of ${before} (a hold, alarms, the calibration of the probe, secrets) lies in ${old} and IS NOT USED: the folder of ${farm} is ${folder}. To go on with it end this host, then: mv ${folder} ${folder}.unused; mv ${old} ${folder}`;
};
