/** Where a command writes: stdout is data, stderr is talk. */
export interface Console {
  readonly out: (text: string) => void;
  readonly talk: (text: string) => void;
  /** Whether talk goes to a person at a terminal. */
  readonly atTerminal: boolean;
  /** Whether data goes to a person at a terminal. */
  readonly outAtTerminal: boolean;
  /** Columns for sentences on stdout: those of the terminal, but no more than a person reads with ease. */
  readonly columns: number;
  /** Aborted once stdout takes no more: its reader has gone, or its disk is full. */
  readonly unread: AbortSignal;
  /** Why data were lost, other than by a reader who had seen enough; null while all is well. */
  readonly lost: () => string | null;
}

const COLUMNS_MAX = 100;
const COLUMNS_MIN = 40;
/** The reader closed the pipe (`| head -1`), or the terminal was closed. Nothing is wrong with us. */
const READER_GONE: readonly string[] = ['EPIPE', 'EIO'];

const columnsOf = ({ isTTY, columns }: NodeJS.WriteStream): number =>
  isTTY && columns > 0 ? Math.min(COLUMNS_MAX, Math.max(COLUMNS_MIN, columns)) : COLUMNS_MAX;

export const processConsole = (): Console => {
  const unread = new AbortController();
  let lost: string | null = null;
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    const code = error.code ?? error.message;
    if (!READER_GONE.includes(code) && !unread.signal.aborted) {
      lost = code;
      process.stderr.write(`stdout takes no more (${code}); what follows is lost.\n`);
    }
    unread.abort();
  });
  // Talk that nobody hears must not end a run.
  process.stderr.on('error', () => undefined);
  return {
    out: (text) => {
      if (!unread.signal.aborted) process.stdout.write(`${text}\n`);
    },
    talk: (text) => {
      process.stderr.write(`${text}\n`);
    },
    atTerminal: process.stderr.isTTY,
    outAtTerminal: process.stdout.isTTY,
    columns: columnsOf(process.stdout),
    unread: unread.signal,
    lost: () => lost,
  };
};
