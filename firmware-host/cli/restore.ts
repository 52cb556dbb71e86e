import { closeSync, existsSync, openSync, readSync } from 'node:fs';
import { resolve } from 'node:path';
import { wallMillis } from '../../src/time/instant.ts';
import { localDateTimeText } from '../../src/time/local-day.ts';
import { farmFromText } from '../farm-file/read.ts';
import { tellProblems } from '../farm-file/tell.ts';
import { bookPath } from '../storage/journal/book-path.ts';
import { readBackup } from '../storage/journal/backup-file.ts';
import { restoreFolder } from '../storage/journal/restore-folder.ts';
import { calibrationFile } from '../storage/calibration-file.ts';
import { claimed, ownerWords } from '../storage/one-host.ts';
import { stateFolder } from '../storage/state-folder.ts';
import { userName } from '../user-name.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { kindAt, refuseWithoutFolder } from './new-file.ts';
import { Refusal } from './refusal.ts';

export interface RestoreOptions {
  readonly to?: string;
  readonly replace?: true;
}

/** Who restores for a service has another place of his own, and the service would begin with nothing. */
const placeHint = (env: NodeJS.ProcessEnv): string | null =>
  (env['RILLKEEPER_STATE'] ?? '') === ''
    ? 'A service does not look there: RILLKEEPER_STATE names the folder where it keeps its book, such as RILLKEEPER_STATE=/var/lib/rillkeeper; say that before this command and restore again.'
    : null;

/** How an SQLite file begins: https://www.sqlite.org/fileformat.html, 1.3. */
const SQLITE_BEGINS = Buffer.from('SQLite format 3\0', 'latin1');

const isSqlite = (file: string): boolean => {
  const opened = openSync(file, 'r');
  try {
    const begin = Buffer.alloc(SQLITE_BEGINS.length);
    readSync(opened, begin, 0, begin.length, 0);
    return begin.equals(SQLITE_BEGINS);
  } finally {
    closeSync(opened);
  }
};

/** What keeps a path from being a backup at all, before SQLite says it in its own words; null where nothing does. */
const noBackup = (file: string): string | null => {
  try {
    switch (kindAt(file)) {
      case 'nothing':
        return 'there is no such file';
      case 'folder':
        return 'it is a folder';
      case 'other':
        return 'it is no file';
      case 'file':
        return isSqlite(file) ? null : 'it is no backup of rillkeeper';
    }
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    return code === 'EACCES' ? `${userName()} may not read it` : message;
  }
};

const ALLOWED_BACKUP =
  'Allowed is a file that "rillkeeper book FARM --backup FILE" has made, such as farm-july.rillkeeper, named with its folder.';

/** `rillkeeper restore FILE`: book, calibration and farm file out of a backup, all of them or none. */
export const restore = async (file: string, options: RestoreOptions, console: Console): Promise<ExitCode> => {
  const other = noBackup(file);
  if (other !== null) {
    throw new Refusal(
      `${file} is not restored, and nothing was changed: ${other}. ${ALLOWED_BACKUP}`,
      EXIT.badInput,
    );
  }
  const read = readBackup(file);
  if (read.kind === 'refused') {
    throw new Refusal(`${file} is not restored, and nothing was changed: ${read.why}.`, EXIT.badInput);
  }
  const { backup, entries } = read;
  const farm = backup.files.find(({ role }) => role === 'farm');
  if (farm === undefined)
    throw new Refusal(`${file} holds no farm file; nothing was changed.`, EXIT.badInput);
  const accepted = farmFromText(farm.content.toString('utf8'), farm.name);
  if (!accepted.ok) {
    throw new Refusal(`${tellProblems(farm.name, accepted.problems)}\nNothing was changed.`, EXIT.badInput);
  }
  const folder = stateFolder(accepted.farm.farm);
  const farmFile = resolve(options.to ?? farm.name);
  refuseWithoutFolder('--to', farmFile);
  const claim = await claimed(folder);
  if (claim.kind === 'taken') {
    throw new Refusal(
      `A host runs ${accepted.farm.farm} on this machine (${ownerWords(claim.pid)}), and its book is open. End it first; nothing was changed.`,
      EXIT.anotherHost,
    );
  }
  const there = [bookPath(folder), calibrationFile(folder), farmFile].filter((path) => existsSync(path));
  if (there.length > 0 && options.replace !== true) {
    throw new Refusal(
      `${there.join(', ')}: there already, and left as it is. With --replace it is moved aside, never deleted${options.to === undefined ? '; --to names another farm file' : ''}.`,
      EXIT.usage,
    );
  }
  try {
    const moved = await restoreFolder({ file, backup, folder, farmFile, nowMillis: Date.now() });
    for (const path of moved) console.talk(`What was there before lies at ${path}.`);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new Refusal(`${file} could not be restored, and all is as it was: ${why}`, EXIT.badInput);
  }
  const { farm: name, place } = accepted.farm;
  const madeAt = localDateTimeText(wallMillis(Date.parse(backup.madeAt)), place.timeZone);
  const hint = placeHint(process.env);
  console.talk(
    [
      `${name}, as of ${madeAt}: ${entries} ${entries === 1 ? 'entry' : 'entries'} in the book in ${folder}, the farm file at ${farmFile}.`,
      'Look at the benches and check it before a host runs on it:',
      `  rillkeeper check ${farmFile}`,
      ...(hint === null ? [] : [hint]),
    ].join('\n'),
  );
  return EXIT.done;
};
