import type { Command } from 'commander';
import type { Console } from './console.ts';

export const addAcknowledgeCommand = (program: Command, console: Console): void => {
  program
    .command('acknowledge')
    .description('says to the running host that its alarms have been seen: buzzer and calls stop')
    .argument('<farm>', 'the farm file')
    .addHelpText(
      'after',
      `
Examples:
  rillkeeper acknowledge farm.yaml
  sudo -u rillkeeper RILLKEEPER_STATE=/var/lib/rillkeeper rillkeeper acknowledge farm.yaml

Prints the alarms that it acknowledges, those that are over too. It mends nothing: what still stands is told again.
Ends with 0, or with 1 when no host took it.`,
    )
    .action(async (farm: string) => {
      const { acknowledge } = await import('./acknowledge.ts');
      process.exitCode = await acknowledge(farm, console);
    });
};
