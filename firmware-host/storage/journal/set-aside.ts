import { existsSync, renameSync } from 'node:fs';

const ENDINGS = ['', '-wal', '-shm'] as const;

/** With the word, `book.sqlite` becomes `book.damaged-2026-07-14T11-00-00Z.sqlite`, with what SQLite keeps beside it; nothing is deleted. */
export const setAside = (path: string, word: 'damaged' | 'later', nowMillis: number): string => {
  const stamp = new Date(nowMillis)
    .toISOString()
    .replace(/\.\d+Z$/, 'Z')
    .replaceAll(':', '-');
  const base = path.replace(/\.sqlite$/, `.${word}-${stamp}`);
  let to = `${base}.sqlite`;
  for (let number = 2; ENDINGS.some((ending) => existsSync(to + ending)); number += 1)
    to = `${base}-${number}.sqlite`;
  // The book itself first: a cut in between leaves a log without a book, which is noticed, and not a book without its log.
  for (const ending of ENDINGS) if (existsSync(path + ending)) renameSync(path + ending, to + ending);
  return to;
};
