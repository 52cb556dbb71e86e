import type { Command } from 'commander';
import type { Console } from './console.ts';
import type { ShelveOptions } from './shelve.ts';

export const addShelveCommand = (program: Command, console: Console): void => {
  program
    .command('shelve')
    .description('puts off an alarm that is not about water: no calls, and then it is told again')
    .argument('<farm>', 'the farm file')
    .argument('[alarm]', 'which; without it those that stand are listed by their names')
    .option(
      '--minutes <minutes>',
      'for so long, 480 at most and never longer than half of the time left; 0 ends it now',
      '60',
    )
    .addHelpText(
      'after',
      `
Examples:
  rillkeeper shelve farm.yaml
  rillkeeper shelve farm.yaml channel-dead --minutes 120
  rillkeeper shelve farm.yaml channel-dead --minutes 0

An alarm about water cannot be put off: the crop hangs on it. It mends nothing, and the alarm is watched meanwhile.
Ends with 0; with 1 when no host took it or the host refused it, and with 2 for an alarm that cannot be put off.`,
    )
    .action(async (farm: string, alarm: string | undefined, options: ShelveOptions) => {
      const { shelve } = await import('./shelve.ts');
      process.exitCode = await shelve(farm, alarm, options, console);
    });
};
