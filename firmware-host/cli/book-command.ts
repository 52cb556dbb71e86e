import { Option, type Command } from 'commander';
import type { BookOptions } from './book.ts';
import { collected } from './collected.ts';
import type { Console } from './console.ts';
import type { RestoreOptions } from './restore.ts';

export const addBookCommands = (program: Command, console: Console): void => {
  program
    .command('book')
    .description('what happened: floods, alarms, orders, readings; also while the host runs')
    .argument('<farm>', 'the farm file')
    .option('--from <time>', 'from then on, by the farm’s clock or, with Z, by UTC (default: the last day)')
    .option('--to <time>', 'until then')
    .addOption(
      new Option('--kind <kind>', 'only this kind; several times for several')
        .default([], 'all but reading and, as text, pump-asked')
        .argParser(collected),
    )
    .option('--csv', 'comma-separated, with a header')
    .option('--json', 'one entry a line')
    .option('--out <file>', 'into a new file')
    .option('--backup <file>', 'book, calibration and farm file as one new file')
    .addHelpText(
      'after',
      `
Examples:
  rillkeeper book farm.yaml                                     the last day
  rillkeeper book farm.yaml --kind verdict --from 2026-07-01
  rillkeeper book farm.yaml --kind reading --csv --out readings.csv
  rillkeeper book farm.yaml --backup farm-july.rillkeeper

Ends with 1 where there is no book, with 2 where the kind or the time is none or the
file may not stand there, with 4 where it cannot be read or
the file cannot be written.`,
    )
    .action(async (farm: string, options: BookOptions) => {
      const { book } = await import('./book.ts');
      process.exitCode = await book(farm, options, console);
    });
  program
    .command('restore')
    .description('book, calibration and farm file out of a backup, all of them or none')
    .argument('<file>', 'a file that "book --backup" has made')
    .option('--to <farm file>', 'where the farm file goes (default: its own name, in this folder)')
    .option('--replace', 'move aside what is there; it is never deleted')
    .addHelpText(
      'after',
      `
Examples:
  rillkeeper restore farm-july.rillkeeper
  rillkeeper restore farm-july.rillkeeper --to shed/farm.yaml --replace

Ends with 2 where something is there already or the farm file has no folder to go to, with 3 while a host runs, with 4
where the file is no backup or a damaged one.`,
    )
    .action(async (file: string, options: RestoreOptions) => {
      const { restore } = await import('./restore.ts');
      process.exitCode = await restore(file, options, console);
    });
};
