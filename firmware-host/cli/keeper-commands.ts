import { Option, type Command } from 'commander';
import type { AdoptOptions } from './board-adopt.ts';
import type { FlashOptions } from './board-flash.ts';
import type { TableOptions } from './board-table.ts';
import type { TestOptions } from './board-test.ts';
import type { Console } from './console.ts';

/** The commands for boards with the project's own firmware; each is loaded when it is called. */
export const addKeeperCommands = (board: Command, console: Console): void => {
  board
    .command('flash')
    .description('put the firmware and the setup of a farm into a board, by avrdude')
    .argument('<farm>', 'the farm file')
    .requiredOption('--board <port>', 'a port such as /dev/ttyUSB0')
    .addOption(
      new Option('--bootloader <kind>', 'new (Optiboot), or old: then without the watchdog').choices([
        'old',
        'new',
      ]),
    )
    .option('--write-only-file <hex>', 'write the image to a file and touch no board')
    .option('--json', 'as data')
    .addHelpText(
      'after',
      "\nExamples:\n  rillkeeper board flash farm.yaml --board /dev/ttyACM0\n  rillkeeper board flash farm.yaml --board /dev/ttyUSB0 --bootloader new\n  rillkeeper board flash farm.yaml --board /dev/ttyUSB0 --bootloader old --write-only-file board.hex\n\nPull the pump's plug first. Asks for Enter before it writes. End the run on this board first.",
    )
    .action(async (farm: string, options: FlashOptions) => {
      const { boardFlash } = await import('./board-flash.ts');
      process.exitCode = await boardFlash(farm, options, console);
    });
  board
    .command('table')
    .description('the table by which a board floods alone, beside the one that the plan gives today')
    .argument('<farm>', 'the farm file')
    .requiredOption('--board <port>', 'a port such as /dev/ttyACM0')
    .option('--write', 'put the table of the plan into the board')
    .option('--json', 'as data')
    .addHelpText(
      'after',
      '\nExample:\n  rillkeeper board table farm.yaml --board /dev/ttyACM0 --write\n\nEnds with 0 when both are the same, 1 when they differ.',
    )
    .action(async (farm: string, options: TableOptions) => {
      const { boardTable } = await import('./board-table.ts');
      process.exitCode = await boardTable(farm, options, console);
    });
  board
    .command('test')
    .description('guided: what a flashed board says of itself, its contacts, buzzer, lamp, and the take-over')
    .argument('<farm>', 'the farm file')
    .requiredOption('--board <port>', 'a port such as /dev/ttyACM0')
    .option('--for <span>', 'how long the contacts are shown (default: 60s)')
    .option('--json', 'as data')
    .addHelpText(
      'after',
      "\nExample:\n  rillkeeper board test farm.yaml --board /dev/ttyACM0\n\nPull the pump's plug first. Ends with 0 when nothing failed, 1 when something did.",
    )
    .action(async (farm: string, options: TestOptions) => {
      const { boardTest } = await import('./board-test.ts');
      process.exitCode = await boardTest(farm, options, console);
    });
  board
    .command('adopt')
    .description(
      'make a flashed spare the board of this farm: checks it, puts its table, says what to change',
    )
    .argument('<farm>', 'the farm file')
    .requiredOption('--board <port>', 'a port such as /dev/ttyACM0')
    .option('--json', 'as data')
    .addHelpText('after', '\nExample:\n  rillkeeper board adopt farm.yaml --board /dev/ttyACM0')
    .action(async (farm: string, options: AdoptOptions) => {
      const { boardAdopt } = await import('./board-adopt.ts');
      process.exitCode = await boardAdopt(farm, options, console);
    });
};
