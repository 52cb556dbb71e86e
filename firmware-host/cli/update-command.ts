import type { Command } from 'commander';
import type { Console } from './console.ts';
import type { UpdateOptions } from './update.ts';

export const addUpdateCommand = (program: Command, console: Console): void => {
  program
    .command('update')
    .description('look into the folder of another version, back up the book, let the service start that one')
    .argument('<new folder>', 'beside the one in force, such as /opt/rillkeeper/0.2.0')
    .argument('<farm>', 'the farm file')
    .option('--no-backup', 'where the farm has no book yet')
    .addHelpText(
      'after',
      `
Example:
  sudo RILLKEEPER_STATE=/var/lib/rillkeeper rillkeeper update /opt/rillkeeper/0.2.0 /etc/rillkeeper/farm.yaml

Changes the link "current" beside the folders, and nothing that runs. Going back is the same with the older folder.
Ends with 2 where the folder is the one in force or no folder of its own, with 4 where it, the farm file or the
backup is refused or the link cannot be changed; nothing is changed then.`,
    )
    .action(async (folder: string, farm: string, options: UpdateOptions) => {
      const { update } = await import('./update.ts');
      process.exitCode = await update(folder, farm, options, console);
    });
};
