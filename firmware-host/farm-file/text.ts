import { open, stat, type FileHandle } from 'node:fs/promises';
import type { FarmProblem } from '../../src/farm/parse.ts';
import { userName } from '../user-name.ts';

/** A farm of 64 benches with many comments is below 100 kB; a larger file is another kind of file. */
export const FILE_BYTES_MAX = 1_000_000;

/** U+FEFF in UTF-8; the decoder swallows it. */
const UTF8_MARK: readonly number[] = [0xef, 0xbb, 0xbf];

export type FileText =
  | {
      readonly ok: true;
      readonly text: string;
      /** What stood before the text: a byte order mark or nothing. */
      readonly byteOrderMark: '' | '\uFEFF';
    }
  | { readonly ok: false; readonly problem: FarmProblem };

const refused = (found: string, allowed: string, problem: string, advice?: string): FileText => ({
  ok: false,
  problem: { path: [], found, allowed, problem, ...(advice === undefined ? {} : { advice }) },
});

const tooLarge = (bytes: number): FileText =>
  refused(
    `${bytes} bytes`,
    `at most ${FILE_BYTES_MAX} bytes`,
    'The file is too large for a farm file; it was not read.',
  );

const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error && typeof error.code === 'string'
    ? error.code
    : 'unknown failure';

/** What is given to be typed lets more people read the file, and gives it to nobody: a service may be its owner. */
const forbidden = (path: string, owner: number | null): FileText => {
  const name = `'${path.replaceAll("'", `'\\''`)}'`;
  const own = owner !== null && owner === process.getuid?.();
  const advice =
    owner === null
      ? `A folder above it may not be entered: ask its owner, or put sudo before the command.`
      : `Type: ${own ? `chmod u+r ${name}` : `sudo chmod a+r ${name}`}`;
  return refused(
    `a file that ${userName()} may not read`,
    'a file that may be read',
    'The file cannot be read.',
    advice,
  );
};

export const unreadable = (error: unknown, path: string, owner: number | null): FileText => {
  const code = codeOf(error);
  if (code === 'EACCES' || code === 'EPERM') return forbidden(path, owner);
  return code === 'ENOENT' || code === 'ENOTDIR'
    ? refused('no file', 'the path of a farm file', 'There is no file at this path.')
    : refused(code, 'a file that may be read', 'The file cannot be read.');
};

/** At most one byte more than allowed, however the file grows while it is read. */
const bytesOf = async (file: FileHandle): Promise<Uint8Array> => {
  const bytes = new Uint8Array(FILE_BYTES_MAX + 1);
  let filled = 0;
  while (filled < bytes.length) {
    const { bytesRead } = await file.read(bytes, filled, bytes.length - filled, null);
    if (bytesRead === 0) break;
    filled += bytesRead;
  }
  return bytes.subarray(0, filled);
};

const decoded = (bytes: Uint8Array): FileText => {
  if (bytes.length > FILE_BYTES_MAX) return tooLarge(bytes.length);
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return refused(
      'bytes that are no UTF-8',
      'text in UTF-8',
      'The file is not plain text.',
      'Save it as UTF-8 from a plain text editor.',
    );
  }
  if (text.includes('\0')) return refused('a zero byte', 'text in UTF-8', 'The file is not plain text.');
  return text.trim() === ''
    ? refused('an empty file', 'a farm file', 'The file has nothing in it.')
    : { ok: true, text, byteOrderMark: UTF8_MARK.every((byte, at) => bytes[at] === byte) ? '\uFEFF' : '' };
};

/** The text of a file of modest size. Size and kind are asked before a byte is read. */
export const textOfFile = async (path: string): Promise<FileText> => {
  let owner: number | null = null;
  try {
    const seen = await stat(path);
    owner = seen.uid;
    if (!seen.isFile()) {
      const kind = seen.isDirectory() ? 'a folder' : 'a device or pipe';
      return refused(kind, 'the path of a farm file', 'This is not a file.');
    }
    if (seen.size > FILE_BYTES_MAX) return tooLarge(seen.size);
    const file = await open(path, 'r');
    try {
      return decoded(await bytesOf(file));
    } finally {
      await file.close();
    }
  } catch (error) {
    return unreadable(error, path, owner);
  }
};
