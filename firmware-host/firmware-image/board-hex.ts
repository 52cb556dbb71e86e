import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';

/** The built program of the board: beside its sources, also in the installed package. */
const HEX = 'firmware-host/board-sketch/board.hex';

/** From the sources this file lies two folders below the root; built, it lies in dist, one below. */
const PLACES: readonly URL[] = ['../../', '../'].map((up) => new URL(`${up}${HEX}`, import.meta.url));

/** Text in Intel hex. @throws Error when it is at none of its places: a broken installation */
export const readBoardHex = async (): Promise<string> => {
  for (const place of PLACES) {
    try {
      return await readFile(place, 'utf8');
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    }
  }
  throw new Error(
    `the program of the board is not in this installation: ${PLACES.map((place) => fileURLToPath(place)).join(', ')}`,
  );
};
