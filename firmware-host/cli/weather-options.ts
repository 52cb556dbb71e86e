import { Option, type Command } from 'commander';

/** From where the weather of a simulated shed comes. */
export const weatherOptions = (command: Command): Command =>
  command
    .option('--weather <file>', 'hourly CSV or EPW file instead of the hot day of the farm file')
    .option(
      '--columns <map>',
      'columns of a CSV, such as time=date,temperature=t_air (also humidity, sun, wind)',
    )
    .addOption(
      new Option(
        '--drawn-days',
        'days drawn by --seed from climate: in the farm file, each unlike the one before',
      ).conflicts(['weather', 'columns', 'hotDay']),
    )
    .addOption(
      new Option(
        '--hot-day',
        'the hot day of the farm file, also where the file names a weather record',
      ).conflicts(['weather', 'columns']),
    );

/** What may be done to it. */
export const weatherChangeOptions = (command: Command): Command =>
  command
    .option('--hotter <degrees>', 'shift the air by so many °C')
    .addOption(
      new Option(
        '--heat-wave <days[:+C]>',
        'so many days about those asked for, warmer by 5 °C or as told',
      ).conflicts('coldSpell'),
    )
    .option('--cold-spell <days[:-C]>', 'the same, colder')
    .option('--cloudy <share>', 'at most this share of the clear sun, such as 0.3, and a narrower day');
