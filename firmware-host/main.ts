#!/usr/bin/env -S node --max-semi-space-size=2
// The host of a shed is a small machine: with room for less garbage at once it takes 12 MB less.
import { Command, CommanderError, Option } from 'commander';
import type { BoardOptions } from './cli/board.ts';
import type { WatchOptions } from './cli/board-watch.ts';
import type { CardOptions } from './cli/card.ts';
import type { CheckOptions } from './cli/check.ts';
import { addBookCommands } from './cli/book-command.ts';
import { addAcknowledgeCommand } from './cli/acknowledge-command.ts';
import { addClockCommand } from './cli/clock-command.ts';
import { collected } from './cli/collected.ts';
import { processConsole } from './cli/console.ts';
import { EXIT } from './cli/exit-code.ts';
import { addHelpCommand } from './cli/help-command.ts';
import { addHeraldCommand } from './cli/herald-command.ts';
import { addKeeperCommands } from './cli/keeper-commands.ts';
import type { CalibrateOptions } from './cli/probe-calibrate.ts';
import { Refusal } from './cli/refusal.ts';
import type { RehearseOptions } from './cli/rehearse.ts';
import { isSimulated, type RunOptions } from './cli/run-options.ts';
import { addShelveCommand } from './cli/shelve-command.ts';
import { sparingOfMemory } from './cli/sparing.ts';
import { addTuneCommand } from './cli/tune-command.ts';
import { addUpdateCommand } from './cli/update-command.ts';
import { weatherChangeOptions, weatherOptions } from './cli/weather-options.ts';

const VERSION = '0.1.0';
const console = processConsole();

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
  rillkeeper tune farm.yaml --part night               the fewest floods that are safe
  rillkeeper run farm.yaml --speed max --for 24h       the controller in a simulated shed

Exit codes: 0 done; 1 rehearse: a bench may wilt, tune: no plan is safe, status: not well, book: there is none,
herald test: not taken; 2 the command line is wrong; 3 another host of the farm runs here; 4 a file or a reading was
refused; 69 no board answers; 70 a defect in rillkeeper; 74 stdout could not be written; 75 run is to be started
anew; 130 ended by Ctrl-C.
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

weatherChangeOptions(
  weatherOptions(
    program
      .command('rehearse')
      .description('run the day plan on a simulated hot day, and say whether the crop holds')
      .argument('[farm]', 'the farm file'),
  ),
)
  .option('--date <date>', 'the local day (default: tomorrow)')
  .addOption(faultOption())
  .option('--scenario <name>', 'one of those that --scenarios lists')
  .option('--scenarios', 'list the scenarios, and end')
  .option('--days <n>', 'so many days on end (default: 1, or as the scenario says)')
  .option('--draws <n>', 'runs with other values for what nobody has measured (default: 32)')
  .option('--seed <n>', 'the same seed gives the same draws and the same sensor noise (default: 1)')
  .option('--report <file.html>', 'also one page with plots, which needs no internet')
  .option('--json', 'as data')
  .addHelpText(
    'after',
    `
Examples:
  rillkeeper rehearse docs/examples/ribeira.yaml
  rillkeeper rehearse docs/examples/ribeira.yaml --hotter 4 --draws 64
  rillkeeper rehearse docs/examples/ribeira.yaml --scenario heat-wave
  rillkeeper rehearse docs/examples/ribeira.yaml --report report.html
  rillkeeper rehearse docs/examples/ribeira.yaml --fault pump-dead@13:00
  rillkeeper rehearse farm.yaml --weather hours.csv --columns time=date,temperature=t_air
  rillkeeper rehearse farm.yaml --weather typical-year.epw --heat-wave 5:+6
  rillkeeper rehearse farm.yaml --drawn-days --seed 7

Ends with 0 when the plan holds, 1 when a bench may wilt.`,
  )
  .action(async (farm: string | undefined, options: RehearseOptions & { readonly scenarios?: true }) => {
    if (options.scenarios === true) {
      const { scenarioList } = await import('./cli/scenario-argument.ts');
      console.out(scenarioList(options.json === true ? 'json' : 'text'));
      return;
    }
    const { rehearse } = await import('./cli/rehearse.ts');
    process.exitCode = await rehearse(farm, options, console);
  });

addTuneCommand(program, console);

weatherOptions(
  program
    .command('run')
    .description('run the controller on a board, real or in a simulated shed')
    .argument('<farm>', 'the farm file'),
)
  .option('--board <port>', 'demo, emulated, auto, or a port such as /dev/ttyACM0 (an invented farm: demo)')
  .option('--rehearse', 'first rehearse tomorrow as a hot day')
  .option('--speed <n>', 'demo: times real time, or max (default: 60)')
  .option('--for <span>', 'end by itself after 24h, 90min, 2d (demo: 60d by default)')
  .option('--from <time>', 'demo: when the shed opens, local time (default: 05:30)')
  .addOption(faultOption())
  .option('--seed <n>', 'the same seed gives the same sensor noise (default: 1)')
  .option('--json', 'one journal entry a line')
  .addHelpText(
    'after',
    `
Examples:
  rillkeeper run docs/examples/ribeira.yaml
  rillkeeper run docs/examples/ribeira.yaml --speed max --for 24h
  rillkeeper run docs/examples/ribeira.yaml --speed max --for 10h --fault pump-dead@13:00
  rillkeeper run farm.yaml --board demo                the same for your own farm
  rillkeeper run farm.yaml --board emulated            with the board's own firmware, its chip emulated
  rillkeeper run farm.yaml --board /dev/ttyACM0        a real pump; a board with a keeper floods on after Ctrl-C
  rillkeeper run farm.yaml --board auto

--weather, --columns, --hot-day, --drawn-days, --speed, --from, --fault and --seed are for the simulated shed.`,
  )
  .action(async (farm: string, options: RunOptions) => {
    if (options.board !== undefined && !isSimulated(options.board)) sparingOfMemory();
    const { run } = await import('./cli/run.ts');
    process.exitCode = await run(farm, options, console);
  });

program
  .command('status')
  .description('what the running host last said of itself: floods, time left, readings')
  .argument('<farm>', 'the farm file')
  .option('--json', 'as data')
  .addHelpText(
    'after',
    '\nExample:\n  rillkeeper status farm.yaml\n\nEnds with 0 when all is well, 1 when an alarm stands, the board is gone or no host runs.',
  )
  .action(async (farm: string, options: { readonly json?: boolean }) => {
    const { status } = await import('./cli/status.ts');
    process.exitCode = await status(farm, options, console);
  });

program
  .command('card')
  .description('what to carry to which bench, and how often, while the pump cannot run; to be printed')
  .argument('<farm>', 'the farm file')
  .option('--date <date>', 'for plants as old as on this local day (default: today)')
  .option('--report <file.html>', 'also one page to be printed')
  .option('--json', 'as data')
  .addHelpText('after', '\nExample:\n  rillkeeper card farm.yaml --report card.html')
  .action(async (farm: string, options: CardOptions) => {
    const { card } = await import('./cli/card.ts');
    process.exitCode = await card(farm, options, console);
  });

addBookCommands(program, console);
addClockCommand(program, console);
addAcknowledgeCommand(program, console);
addShelveCommand(program, console);
addUpdateCommand(program, console);

const board = program
  .command('board')
  .description('find, ask, flash, test and look at the board in the shed');
board
  .command('list')
  .description('serial ports on which a board may be; nothing is opened')
  .option('--json', 'as data')
  .action(async (options: BoardOptions) => {
    const { boardList } = await import('./cli/board.ts');
    process.exitCode = await boardList(options, console);
  });
board
  .command('info')
  .description('who answers at a port, and its pins; none is touched, but most boards restart')
  .argument('<port>', 'such as /dev/ttyACM0')
  .option('--json', 'as data')
  .action(async (port: string, options: BoardOptions) => {
    const { boardInfo } = await import('./cli/board.ts');
    process.exitCode = await boardInfo(port, options, console);
  });
board
  .command('watch')
  .description(
    'every reading once a second, with quality and age; asks for no flood, but most boards restart',
  )
  .argument('<farm>', 'the farm file')
  .requiredOption('--board <port>', 'auto, or a port such as /dev/ttyACM0')
  .option('--for <span>', 'end by itself after 90min, 1h')
  .option('--json', 'one object a line')
  .action(async (farm: string, options: WatchOptions) => {
    const { boardWatch } = await import('./cli/board-watch.ts');
    process.exitCode = await boardWatch(farm, options, console);
  });
addKeeperCommands(board, console);
addHeraldCommand(program, console);

program
  .command('probe')
  .description('the conductivity probe in the tank')
  .command('calibrate')
  .description('guided: dip, press Enter, read; refuses nonsense and keeps the old calibration')
  .argument('<farm>', 'the farm file')
  .requiredOption('--board <port>', 'auto, or a port such as /dev/ttyACM0')
  .addOption(
    new Option('--standard <value>', 'µS/cm at 25 °C from the bottle; give it twice for two points')
      .default([], 'none; one is needed')
      .argParser(collected),
  )
  .option('--celsius <degrees>', 'in the cup, where no water thermometer is fitted')
  .addHelpText(
    'after',
    '\nExamples:\n  rillkeeper probe calibrate farm.yaml --board /dev/ttyACM0 --standard 1413\n  rillkeeper probe calibrate farm.yaml --board auto --standard 84 --standard 1413 --celsius 24.5\n\nEnd the run on this board first: one program at a time has the port.',
  )
  .action(async (farm: string, options: CalibrateOptions) => {
    const { probeCalibrate } = await import('./cli/probe-calibrate.ts');
    process.exitCode = await probeCalibrate(farm, options, console);
  });

addHelpCommand(program);

/** Every refusal of commander's says what was found; this adds what is allowed. */
const fullName = (command: Command): string =>
  command.parent === null ? command.name() : `${fullName(command.parent)} ${command.name()}`;
const allowedWords = (command: Command): string => {
  const options = [...command.options.map(({ flags }) => flags), '-h, --help'].join('; ');
  const commands = command.commands.map((each) => each.name()).join(', ');
  return commands === ''
    ? `Allowed: ${fullName(command)} ${command.usage()}, with the options ${options}`
    : `Allowed commands: ${commands}. Each has its own --help.\nAllowed options before a command: ${options}`;
};
const withCommands = (command: Command): readonly Command[] => [
  command,
  ...command.commands.flatMap(withCommands),
];
for (const command of withCommands(program)) command.showHelpAfterError(allowedWords(command));

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
/** A port that hangs must not keep a command from ending; by then everything has been said. */
const PATIENCE_MILLIS = 3000;
setTimeout(() => process.exit(), PATIENCE_MILLIS).unref();
process.once('exit', () => {
  if (console.lost() !== null) process.exitCode = EXIT.outputLost;
});
