import { createPatch, FILE_HEADERS_ONLY } from 'diff';

/** Enough to see the name of a day part above most of its numbers. */
const LINES_AROUND = 2;

/** What changes in a file, as a unified diff with the file's name; empty where nothing does. */
export const textDiff = (file: string, before: string, after: string): string =>
  before === after
    ? ''
    : createPatch(file, before, after, undefined, undefined, {
        context: LINES_AROUND,
        headerOptions: FILE_HEADERS_ONLY,
      });
