import type { BookRow } from '../storage/journal/book-read.ts';
import { entryLine } from './entry-words.ts';

/** RFC 4180, section 2: a field with a comma, a quote or a line break stands in quotes, and a quote in it twice. */
const field = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** Section 2.1 ends each record with CR and LF; the writer adds the LF. */
const record = (fields: readonly string[]): string => `${fields.map(field).join(',')}\r`;

export const CSV_HEADER = record(['number', 'time', 'kind', 'words', 'monotonic_ms', 'boot', 'data']);

/** `time` is UTC by ISO 8601, empty where no clock was believed; `data` is all that the entry holds, as JSON. */
export const csvRecord = ({ number, boot, entry }: BookRow, timeZone: string): string => {
  const { at, wall, kind, ...data } = entry;
  const line = entryLine(entry, timeZone);
  const words = line.slice(line.indexOf('  ') + 2);
  const time = wall === 'unknown' ? '' : new Date(wall).toISOString();
  return record([String(number), time, kind, words, String(at), boot, JSON.stringify(data)]);
};
