/** Where a command writes: stdout is data, stderr is talk. */
export interface Console {
  readonly out: (text: string) => void;
  readonly talk: (text: string) => void;
  /** Whether talk goes to a person at a terminal. */
  readonly atTerminal: boolean;
}

export const processConsole = (): Console => ({
  out: (text) => {
    process.stdout.write(`${text}\n`);
  },
  talk: (text) => {
    process.stderr.write(`${text}\n`);
  },
  atTerminal: process.stderr.isTTY,
});
