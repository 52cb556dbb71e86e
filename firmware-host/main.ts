#!/usr/bin/env node
import { Command, CommanderError, Option } from 'commander';
import type { CheckOptions } from './cli/check.ts';
import { processConsole } from './cli/console.ts';
import { EXIT } from './cli/exit-code.ts';
import { Refusal } from './cli/refusal.ts';
import type { RehearseOptions } from './cli/rehearse.ts';
import type { RunOptions } from './cli/run.ts';

const VERSION = '0.1.0';
const console = processConsole();

const weatherOptions = (command: Command): Command =>
  command
    .option('--weather <file>', 'hourly CSV instead of the hot day of the farm file')
    .option('--columns <map>', 'its columns, such as time=date,temperature=t_air (also humidity, sun, wind)')
    .addOption(
      new Option(
        '--hot-day',
        'the hot day of the farm file, also where the file names a weather record',
      ).conflicts(['weather', 'columns']),
    );

const collected = (text: string, before: readonly string[]): readonly string[] => [...before, text];
const faultOption = (): Option =>
  new Option('--fault <kind@time>', 'break something, such as pump-dead@13:00 or relay-open@09:00-10:00')
    .default([], 'none')
    .argParser(collected);

const program = new Command('rillkeeper')
  .description('Plans, rehearses, runs and watches the floods of sloping growing channels.')
  .version(VERSION)
  .exitOverride()
  .addHelpText(
    'after',
    `
Examples:
  rillkeeper check farm.yaml                           is the farm file good, and what does it say?
  rillkeeper rehearse farm.yaml                        tomorrow as a hot day: will the crop hold?
  rillkeeper rehearse farm.yaml --fault pump-dead@13:00
  rillkeeper run farm.yaml --speed max --for 24h       the controller in a simulated shed

Exit codes: 0 done; 1 rehearse: a bench may wilt; 2 the command line is wrong;
4 a file was refused; 70 a defect in rillkeeper; 74 stdout could not be written.
stdout is data, stderr is talk.`,
  );

program
  .command('check')
  .description('read a farm file, tell every problem at its line, warn of what is unlikely')
  .argument('[farm]', 'the farm file')
  .option('--json', 'as data')
  .option('--schema', 'print the JSON Schema of farm files, for editors')
  .addHelpText(
    'after',
    '\nExamples:\n  rillkeeper check docs/examples/ribeira.yaml\n  rillkeeper check --schema > farm.schema.json',
  )
  .action(async (farm: string | undefined, options: CheckOptions) => {
    const { check } = await import('./cli/check.ts');
    process.exitCode = await check(farm, options, console);
  });

weatherOptions(
  program
    .command('rehearse')
    .description('run the day plan on a simulated hot day, and say whether the crop holds')
    .argument('<farm>', 'the farm file'),
)
  .option('--date <date>', 'the local day (default: tomorrow)')
  .option('--hotter <degrees>', 'shift the air by so many °C')
  .addOption(faultOption())
  .option('--draws <n>', 'runs with other values for what nobody has measured (default: 4)')
  .option('--seed <n>', 'the same seed gives the same draws and the same sensor noise (default: 1)')
  .option('--json', 'as data')
  .addHelpText(
    'after',
    `
Examples:
  rillkeeper rehearse docs/examples/ribeira.yaml
  rillkeeper rehearse docs/examples/ribeira.yaml --hotter 4 --draws 16
  rillkeeper rehearse docs/examples/ribeira.yaml --fault pump-dead@13:00
  rillkeeper rehearse farm.yaml --weather hours.csv --columns time=date,temperature=t_air

Ends with 0 when the plan holds, 1 when a bench may wilt.`,
  )
  .action(async (farm: string, options: RehearseOptions) => {
    const { rehearse } = await import('./cli/rehearse.ts');
    process.exitCode = await rehearse(farm, options, console);
  });

weatherOptions(
  program
    .command('run')
    .description('run the controller; the only board so far is a simulated shed')
    .argument('<farm>', 'the farm file'),
)
  .option('--rehearse', 'first rehearse tomorrow as a hot day')
  .option('--speed <n>', 'times real time, or max (default: 60)')
  .option('--for <span>', 'end by itself after 24h, 90min, 2d (default: 60d)')
  .option('--from <time>', 'when the shed opens, local time (default: 05:30)')
  .addOption(faultOption())
  .option('--seed <n>', 'the same seed gives the same sensor noise (default: 1)')
  .option('--json', 'one journal entry a line')
  .addHelpText(
    'after',
    `
Examples:
  rillkeeper run docs/examples/ribeira.yaml
  rillkeeper run docs/examples/ribeira.yaml --speed max --for 24h
  rillkeeper run docs/examples/ribeira.yaml --speed max --for 10h --fault pump-dead@13:00`,
  )
  .action(async (farm: string, options: RunOptions) => {
    const { run } = await import('./cli/run.ts');
    process.exitCode = await run(farm, options, console);
  });

/** Every refusal of commander's says what was found; this adds what is allowed. */
const allowedWords = (command: Command): string => {
  const options = [...command.options.map(({ flags }) => flags), '-h, --help'].join('; ');
  const commands = command.commands.map((each) => each.name()).join(', ');
  return commands === ''
    ? `Allowed: rillkeeper ${command.name()} ${command.usage()}, with the options ${options}`
    : `Allowed commands: ${commands}. Each has its own --help.\nAllowed options before a command: ${options}`;
};
for (const command of [program, ...program.commands]) command.showHelpAfterError(allowedWords(command));

const asksForJson = process.argv.includes('--json');

try {
  await program.parseAsync();
} catch (error) {
  if (error instanceof CommanderError) {
    process.exitCode = error.exitCode === 0 ? EXIT.done : EXIT.usage;
  } else if (error instanceof Refusal) {
    console.talk(error.message);
    if (asksForJson)
      console.out(JSON.stringify({ ok: false, says: error.message, problems: error.problems }, null, 2));
    process.exitCode = error.exitCode;
  } else {
    console.talk(
      `A defect in rillkeeper; please report it with this text.\n${error instanceof Error ? (error.stack ?? error.message) : String(error)}`,
    );
    process.exitCode = EXIT.internal;
  }
}
process.once('exit', () => {
  if (console.lost() !== null) process.exitCode = EXIT.outputLost;
});
