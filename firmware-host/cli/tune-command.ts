import { Option, type Command } from 'commander';
import { collected } from './collected.ts';
import type { Console } from './console.ts';
import type { TuneOptions } from './tune.ts';
import { weatherChangeOptions, weatherOptions } from './weather-options.ts';

const parts = (): Option =>
  new Option('--part <name>', 'day part to tune; several times for several, or all')
    .default([], 'none; one is needed')
    .argParser(collected);
const replanted = (): Option =>
  new Option('--replanted <bench>', 'what if this bench were sown on that day; several times for several')
    .default([], 'none')
    .argParser(collected);

export const addTuneCommand = (program: Command, console: Console): void => {
  weatherChangeOptions(
    weatherOptions(
      program
        .command('tune')
        .description('search the fewest floods that are safe, and say with what margin and on what it rests')
        .argument('<farm>', 'the farm file'),
    ),
  )
    .addOption(parts())
    .option('--floods <range>', 'numbers of floods to try (default: 1-12)')
    .option(
      '--minutes <range[:step]>',
      'lengths of floods to try (default: the bounds of the farm file, by 5)',
    )
    .option(
      '--rests <range[:step]>',
      'rests to try, in a part that is paced by its rest (default: the bounds, by 5)',
    )
    .option('--rule <percents>', 'also other rules of temperature, %/°C of the rest, such as -5,-3,0')
    .option('--date <date>', 'the first local day (default: tomorrow)')
    .option('--days <n>', 'so many days on end (default: 3)')
    .option('--weeks <n>', 'also for the plants as they will be in so many weeks (default: 3)')
    .option('--draws <n>', 'runs with other values for what nobody has measured (default: 32)')
    .option('--seed <n>', 'the same seed gives the same draws (default: 1)')
    .option('--weaker-pump <percent>', 'what if the pump gave so much less')
    .addOption(replanted())
    .option('--lost <time>', 'what if the flood nearest to this time, such as 02:00, were lost each day')
    .option('--apply', 'write the answer into the farm file; comments stay')
    .option('--report <file.html>', 'also one page with plots, which needs no internet')
    .option('--json', 'as data')
    .addHelpText(
      'after',
      `
Examples:
  rillkeeper tune docs/examples/ribeira.yaml --part night
  rillkeeper tune farm.yaml --part night --floods 1-8 --minutes 10-35:1
  rillkeeper tune farm.yaml --part night --hotter 4
  rillkeeper tune farm.yaml --part night --lost 02:00
  rillkeeper tune farm.yaml --part all --floods 1-6 --rests 15-40:5 --minutes 20
  rillkeeper tune farm.yaml --part night --apply

Safe: in no run, not even with the worst flood missed, does a bench come to its wilt floor.
Ends with 0 when a plan is safe, 1 when none that was tried is. Ctrl-C ends the search and tells what it has found.`,
    )
    .action(async (farm: string, options: TuneOptions) => {
      const { tune } = await import('./tune.ts');
      process.exitCode = await tune(farm, options, console);
    });
};
