import { Option, type Command } from 'commander';
import { collected } from './collected.ts';
import type { Console } from './console.ts';
import type { HeraldTestOptions } from './herald-test.ts';

export const addHeraldCommand = (program: Command, console: Console): void => {
  program
    .command('herald')
    .description('who is called, and whether the calls arrive')
    .command('test')
    .description(
      'send a message marked as a test through each channel, to each person, and tell what came of it',
    )
    .argument('<farm>', 'the farm file')
    .addOption(
      new Option('--person <name>', 'only to this person; several times for several')
        .default([], 'all')
        .argParser(collected),
    )
    .addOption(
      new Option(
        '--channel <name>',
        'only through modem, mail, broker or a webhook; several times for several',
      )
        .default([], 'all')
        .argParser(collected),
    )
    .option('--ring', 'also ring each phone')
    .option('--json', 'as data')
    .addHelpText(
      'after',
      `
Examples:
  rillkeeper herald test farm.yaml
  rillkeeper herald test farm.yaml --person Ana --channel modem --ring

A text is no guarantee: ask each person whether it arrived.
Ends with 0 when each was taken on its way, 1 when one was not, 4 when there is nothing to test.`,
    )
    .action(async (farm: string, options: HeraldTestOptions) => {
      const { heraldTest } = await import('./herald-test.ts');
      process.exitCode = await heraldTest(farm, options, console);
    });
};
