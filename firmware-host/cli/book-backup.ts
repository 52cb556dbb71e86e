import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { calibrationFile } from '../storage/calibration-file.ts';
import { writeBackup, type BackedUpFile } from '../storage/journal/backup-file.ts';
import { bookPath } from '../storage/journal/book-path.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { refuseUnlessNew } from './new-file.ts';
import { Refusal } from './refusal.ts';
import { stopSignal } from './stop-signal.ts';

export interface BackupAsked {
  readonly folder: string;
  readonly to: string;
  readonly farm: string;
  readonly farmFile: string;
  readonly farmText: string;
}

/** @throws Error when it is there and cannot be read */
const calibrationOf = async (folder: string): Promise<readonly BackedUpFile[]> => {
  const file = calibrationFile(folder);
  try {
    return [{ role: 'calibration', name: basename(file), content: await readFile(file) }];
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return [];
    throw error;
  }
};

/** `rillkeeper book FARM --backup FILE`: book, calibration and farm file as one file, also while a host runs. */
export const backup = async (asked: BackupAsked, console: Console): Promise<ExitCode> => {
  const { folder, to, farm, farmFile, farmText } = asked;
  refuseUnlessNew('--backup', to, `${basename(farmFile).replace(/\.ya?ml$/, '')}.rillkeeper`);
  if (!existsSync(bookPath(folder))) {
    // A backup without a book is found out on the new computer, when it is too late.
    throw new Refusal(
      `--backup ${to}: no backup was made: there is no book of ${farm} on this machine, nothing in ${folder}. RILLKEEPER_STATE names the folder where the service keeps it, such as RILLKEEPER_STATE=/var/lib/rillkeeper.`,
      EXIT.notWell,
    );
  }
  const stop = stopSignal();
  try {
    const calibration = await calibrationOf(folder);
    const files: readonly BackedUpFile[] = [
      { role: 'farm', name: basename(farmFile), content: Buffer.from(farmText) },
      ...calibration,
    ];
    const made = { madeAt: new Date().toISOString(), farm, files };
    await writeBackup(bookPath(folder), to, made, stop);
    const probe =
      calibration.length === 0 ? 'no calibration (there is none)' : 'the calibration of the probe';
    console.talk(
      `Written to ${to}: the book, ${probe} and ${basename(farmFile)}. Back again: rillkeeper restore ${to}`,
    );
    return EXIT.done;
  } catch (error) {
    if (stop.aborted) {
      throw new Refusal(`--backup ${to}: no backup was made: it was ended before that.`, EXIT.notWell);
    }
    throw new Refusal(
      `--backup ${to}: no backup was made: ${error instanceof Error ? error.message : String(error)}`,
      EXIT.badInput,
    );
  }
};
