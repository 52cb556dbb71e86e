import type { Command } from 'commander';
import type { ClockOptions } from './clock.ts';
import type { Console } from './console.ts';

export const addClockCommand = (program: Command, console: Console): void => {
  program
    .command('clock')
    .description(
      'the date and time that this machine has; after a jump the host believes them again by --right',
    )
    .argument('<farm>', 'the farm file')
    .option('--right', 'say to the running host that they are right')
    .addHelpText(
      'after',
      `
Examples:
  rillkeeper clock farm.yaml
  rillkeeper clock farm.yaml --right

Compare with a watch first: by a wrong clock the benches rest at noon as at night.
Ends with 0, or with 1 when no host took it.`,
    )
    .action(async (farm: string, options: ClockOptions) => {
      const { clock } = await import('./clock.ts');
      process.exitCode = await clock(farm, options, console);
    });
};
