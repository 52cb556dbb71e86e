import { ENTRY_KINDS } from '../../src/journal/entry-kinds.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { localDateTimeText } from '../../src/time/local-day.ts';
import { whyOf } from '../storage/journal/book-file.ts';
import { openForReading, type BookRow, type ReadableBook } from '../storage/journal/book-read.ts';
import { bookPath } from '../storage/journal/book-path.ts';
import { stateFolder } from '../storage/state-folder.ts';
import { CSV_HEADER, csvRecord } from './book-csv.ts';
import { toConsole, toFile } from './book-sink.ts';
import { momentFrom } from './book-times.ts';
import type { Console } from './console.ts';
import { entryJson, entryLine, isToldUnasked } from './entry-words.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { farmToTellOf } from './farm-argument.ts';
import { Refusal } from './refusal.ts';
import { wrapped } from './wrap.ts';

export interface BookOptions {
  readonly from?: string;
  readonly to?: string;
  readonly kind?: readonly string[];
  readonly csv?: true;
  readonly json?: true;
  readonly out?: string;
  readonly backup?: string;
}

const MILLIS_A_DAY = 86_400_000;
/** The words of an entry begin at this column, and go on there on the next line. */
const WORDS_COLUMN = '2026-07-14 05:31  '.length;

/** One line of JSON, with the number of the entry and the start of the machine that `at` counts from. */
const jsonLine = ({ number, boot, entry }: BookRow): string =>
  `{"number":${number},"boot":"${boot}",${entryJson(entry).slice(1)}`;

const kindsFrom = (asked: readonly string[]): readonly string[] => {
  const unknown = asked.find((kind) => !ENTRY_KINDS.some((known) => known === kind));
  if (unknown !== undefined) {
    throw new Refusal(
      `--kind: found "${unknown}"; allowed are ${ENTRY_KINDS.join(', ')}. For several give --kind several times.`,
      EXIT.usage,
    );
  }
  return asked;
};

const unreadable = (why: string): Refusal => new Refusal(`The book cannot be read: ${why}.`, EXIT.badInput);

/** @throws Refusal where a page or a row of it is spoilt; nothing is changed in it */
const believed = <Value>(read: () => Value): Value => {
  try {
    return read();
  } catch (error) {
    throw unreadable(
      `${whyOf(error)}. It is damaged; nothing was changed in it. A host that finds this out sets it aside, deletes nothing and begins another`,
    );
  }
};
/** The same for its rows, of which those before the damage have been told then. */
function* believedRows(rows: Iterator<BookRow>): Generator<BookRow, void, void> {
  for (;;) {
    const next = believed(() => rows.next());
    if (next.done === true) return;
    yield next.value;
  }
}

const print = (book: ReadableBook, timeZone: string, options: BookOptions, console: Console): void => {
  const to = options.to === undefined ? null : momentFrom(options.to, '--to', timeZone);
  const kinds = kindsFrom(options.kind ?? []);
  // The last day that the book tells of, however long ago that was.
  const newest = believed(book.newest);
  const from =
    options.from === undefined
      ? Math.max(0, (to ?? newest ?? 0) - MILLIS_A_DAY)
      : momentFrom(options.from, '--from', timeZone);
  if (to !== null && from >= to) throw new Refusal('--from must lie before --to.', EXIT.usage);
  const sink = options.out === undefined ? toConsole(console) : toFile(options.out);
  const toPerson = console.outAtTerminal && options.out === undefined;
  const said = (row: BookRow): string | null => {
    if (options.csv === true) return csvRecord(row, timeZone);
    if (options.json === true) return jsonLine(row);
    if (kinds.length === 0 && !isToldUnasked(row.entry)) return null;
    const line = entryLine(row.entry, timeZone);
    return toPerson ? wrapped(line, console.columns, WORDS_COLUMN) : line;
  };
  let count = 0;
  try {
    if (options.csv === true) sink.line(CSV_HEADER);
    for (const row of believedRows(book.rows({ from, to, kinds }))) {
      const line = said(row);
      if (line === null) continue;
      count += 1;
      sink.line(line);
      if (console.unread.aborted && options.out === undefined) break;
    }
    sink.done();
  } catch (error) {
    sink.giveUp();
    throw error;
  }
  if (count === 0) {
    const last =
      newest === null ? '' : ` The newest entry is of ${localDateTimeText(wallMillis(newest), timeZone)}.`;
    const what = kinds.length === 0 ? 'Nothing that is told without --kind' : 'Nothing of that kind';
    console.talk(`${what} stands in the book for that time.${last}`);
  }
  if (options.out !== undefined)
    console.talk(`${count} ${count === 1 ? 'line' : 'lines'} written to ${options.out}.`);
};

/** `rillkeeper book FARM`: what happened, from the book of the host, also while it writes. */
export const book = async (path: string, options: BookOptions, console: Console): Promise<ExitCode> => {
  const { farm, text } = await farmToTellOf(path, console);
  if (options.csv === true && options.json === true) throw new Refusal('Either --csv or --json.', EXIT.usage);
  const folder = stateFolder(farm.farm);
  if (options.backup !== undefined) {
    const { backup } = await import('./book-backup.ts');
    return backup({ folder, to: options.backup, farmFile: path, farmText: text, farm: farm.farm }, console);
  }
  const found = openForReading(bookPath(folder));
  switch (found.kind) {
    case 'none':
      throw new Refusal(
        `No book of ${farm.farm} on this machine: nothing in ${folder}. A host begins one: rillkeeper run ${path} --board …; a simulated shed keeps none.`,
        EXIT.notWell,
      );
    case 'unreadable':
      throw unreadable(found.why);
    case 'open':
      try {
        print(found.book, farm.place.timeZone, options, console);
      } finally {
        found.book.close();
      }
      return EXIT.done;
  }
};
