import type { Command } from 'commander';
import { EXIT } from './exit-code.ts';
import { Refusal } from './refusal.ts';

/** `rillkeeper help board flash`; commander's own shows the general help for a word that it does not know. */
export const addHelpCommand = (program: Command): void => {
  program
    .helpCommand(false)
    .command('help')
    .description('the help of a command')
    .argument('[command...]', 'such as rehearse, or board flash')
    .action((names: readonly string[]) => {
      let command = program;
      for (const name of names) {
        const next = command.commands.find((each) => each.name() === name);
        if (next === undefined) {
          const known = command.commands.map((each) => each.name()).join(', ');
          throw new Refusal(
            `help: found "${name}"; ${known === '' ? `${command.name()} has no commands of its own` : `allowed are ${known}`}.`,
            EXIT.usage,
          );
        }
        command = next;
      }
      command.help();
    });
};
