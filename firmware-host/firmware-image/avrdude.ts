import { spawn } from 'node:child_process';
import type { Flashing } from './bootloader.ts';

/** avrdude, the program that talks to bootloaders: its manual, "Command Line Options". */

const PROGRAM = 'avrdude';

/** How avrdude ended, and what it said on both its outputs. */
export type AvrdudeEnd =
  | { readonly kind: 'missing' }
  | { readonly kind: 'ended'; readonly code: number | null; readonly output: string };

/** Of what avrdude says, more than any run of ours; the oldest goes first. */
const OUTPUT_MAX = 100_000;

const reaching = (port: string, { baud }: Flashing): readonly string[] => [
  // Memory is not erased first: a bootloader does that page by page.
  ...['-p', 'atmega328p', '-c', 'arduino', '-P', port, '-b', String(baud), '-D'],
];

/** Only asks the bootloader who it is; -v for the version that it tells. */
export const askArguments = (port: string, flashing: Flashing): readonly string[] => [
  ...reaching(port, flashing),
  '-v',
];

/** Writes the image and reads it back. */
export const writeArguments = (port: string, flashing: Flashing, file: string): readonly string[] => [
  ...reaching(port, flashing),
  ...['-U', `flash:w:${file}:i`],
];

const quoted = (word: string): string =>
  /^[\w@%+=:,./-]+$/.test(word) ? word : `'${word.replaceAll("'", `'\\''`)}'`;

/** The same as a line that a person can give to a shell. */
export const commandLine = (args: readonly string[]): string => [PROGRAM, ...args].map(quoted).join(' ');

/** Runs avrdude; `line` hears each line that it says as it comes. */
export const runAvrdude = (args: readonly string[], line: (text: string) => void): Promise<AvrdudeEnd> =>
  new Promise((end, fail) => {
    const child = spawn(PROGRAM, [...args], { stdio: ['ignore', 'pipe', 'pipe'] });
    let output = '';
    for (const stream of [child.stdout, child.stderr]) {
      let rest = '';
      stream.setEncoding('utf8').on('data', (text: string) => {
        output = `${output}${text}`.slice(-OUTPUT_MAX);
        const lines = `${rest}${text}`.split(/[\r\n]+/);
        rest = lines.pop() ?? '';
        lines.filter((said) => said !== '').forEach(line);
      });
      stream.on('end', () => {
        if (rest !== '') line(rest);
      });
    }
    child.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'ENOENT') end({ kind: 'missing' });
      else fail(error);
    });
    child.on('close', (code) => {
      end({ kind: 'ended', code, output });
    });
  });

export const GET_AVRDUDE =
  'avrdude is not installed; it writes the program into the board. Debian, Ubuntu, Raspberry Pi OS: sudo apt install avrdude. macOS: brew install avrdude. Windows: its releases on github, avrdudes/avrdude.';

/** What to do about a run that failed, from what avrdude said. */
export const failureWords = (said: string, { bootloader, baud }: Flashing): string => {
  // With -v it also says that a configuration file of the user "does not exist", whatever the failure.
  const output = said.replace(/^.*configuration file.*$/gim, '');
  if (/Permission denied/i.test(output))
    return 'There is no right to open the port: join the group that owns it, often dialout, and log in again.';
  if (/busy|locked|cannot lock/i.test(output))
    return 'Another program has the port: end it first; a running rillkeeper?';
  if (/No such file|cannot find|does not exist/i.test(output))
    return 'There is no such port; see: rillkeeper board list.';
  if (/verification (?:error|mismatch)/i.test(output))
    return 'What was written does not read back: the board must not go to the pump. Flash it once more; if that fails as well, take another board.';
  if (/\bwriting\b/i.test(output))
    return 'It broke off in the middle of the writing: the board may hold half a program. It must not go to the pump. Flash it once more; if that fails as well, take another board.';
  if (/not in sync|not responding|unable to open programmer|attempt \d+ of/i.test(output)) {
    const other = bootloader === 'new' ? 'old' : 'new';
    return `No bootloader answers at ${baud} baud, and nothing was written. It may be the other kind: --bootloader ${other}. Else press the button on the board as the command starts.`;
  }
  if (/signature/i.test(output)) return 'The chip is not an ATmega328P: this program fits no other.';
  return 'What avrdude said stands above.';
};
