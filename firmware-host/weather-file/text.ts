import { isUtf8 } from 'node:buffer';
import { open, stat } from 'node:fs/promises';
import type { WeatherProblem } from './problem.ts';

/** Thirty years of hours with ten columns stay below 20 MB; the parser holds the whole text in memory. */
export const FILE_BYTES_MAX = 50_000_000;

export type TextReading =
  { readonly ok: true; readonly text: string } | { readonly ok: false; readonly problem: WeatherProblem };

const LINE_FEED = 0x0a;

const refused = (line: number | null, found: string, allowed: string, remedy: string): TextReading => ({
  ok: false,
  problem: { line, column: null, found, allowed, remedy },
});

const lineOfByte = (bytes: Buffer, position: number): number => {
  let line = 1;
  for (let at = bytes.indexOf(LINE_FEED); at !== -1 && at < position; at = bytes.indexOf(LINE_FEED, at + 1))
    line += 1;
  return line;
};

const firstLineNotUtf8 = (bytes: Buffer): number => {
  let line = 1;
  let from = 0;
  for (let at = bytes.indexOf(LINE_FEED); at !== -1; at = bytes.indexOf(LINE_FEED, from)) {
    if (!isUtf8(bytes.subarray(from, at))) return line;
    line += 1;
    from = at + 1;
  }
  return line;
};

/** The text of a file's bytes, which must be UTF-8. */
export const textOf = (bytes: Buffer): TextReading => {
  if (bytes.length === 0) {
    return refused(null, 'an empty file', 'a header line and hourly rows', 'Export the record again.');
  }
  const nought = bytes.indexOf(0);
  if (nought !== -1) {
    const remedy =
      'Export the record as CSV in UTF-8; a spreadsheet, an archive or UTF-16 text cannot be read.';
    return refused(lineOfByte(bytes, nought), 'a zero byte', 'plain text in UTF-8', remedy);
  }
  if (!isUtf8(bytes)) {
    const remedy = 'Save the file again with the encoding UTF-8.';
    return refused(firstLineNotUtf8(bytes), 'bytes that are not UTF-8', 'plain text in UTF-8', remedy);
  }
  return { ok: true, text: bytes.toString('utf8') };
};

const reasonOf = (error: unknown): string => {
  if (!(error instanceof Error)) return String(error);
  const { code } = error as NodeJS.ErrnoException;
  return code === 'ENOENT' || code === 'ENOTDIR' ? 'no file at this path' : error.message;
};

/** Reads a text file, refusing anything too large before its bytes are fetched. */
export const readText = async (path: string): Promise<TextReading> => {
  let file;
  try {
    // Opening a pipe would wait for whoever may write into it.
    if (!(await stat(path)).isFile())
      return refused(
        null,
        `no file at ${path}`,
        'a file',
        'Look at the path, in the farm file under weather or after --weather.',
      );
    file = await open(path, 'r');
  } catch (error) {
    return refused(
      null,
      reasonOf(error),
      'a file that can be read',
      'Look at the path, in the farm file under weather or after --weather.',
    );
  }
  try {
    const { size } = await file.stat();
    if (size > FILE_BYTES_MAX) {
      const found = `${(size / 1e6).toFixed(1)} MB`;
      return refused(null, found, `at most ${FILE_BYTES_MAX / 1e6} MB`, 'Keep the years that matter.');
    }
    return textOf(await file.readFile());
  } catch (error) {
    return refused(null, reasonOf(error), 'a file that can be read', 'Look at the disk and try again.');
  } finally {
    await file.close();
  }
};
