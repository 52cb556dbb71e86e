import type { Entry } from '../../src/journal/entry.ts';
import { afterMinutes, wallMillis } from '../../src/time/instant.ts';
import { localClockInstant, localDayOf, localDayOn } from '../../src/time/local-day.ts';
import { run as runLoop } from '../run-loop.ts';
import { liveShed, skyOver } from '../simulated-shed.ts';
import type { Console } from './console.ts';
import { entryJson, entryLine } from './entry-words.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { acceptedFarm, todayFor } from './farm-argument.ts';
import { faultFrom } from './fault-argument.ts';
import { Refusal } from './refusal.ts';
import { DRAWS_DEFAULT, rehearseFarm, type RehearseOptions } from './rehearse.ts';
import { rehearsalJson } from './rehearsal-json.ts';
import { rehearsalText } from './rehearsal-report.ts';
import { minuteOfDay, numberWithin, spanMinutes, wholeNumber } from './times.ts';
import { weatherFor } from './weather-argument.ts';
import { wrapped } from './wrap.ts';

export interface RunOptions extends RehearseOptions {
  readonly rehearse?: boolean;
  readonly speed?: string;
  readonly for?: string;
  readonly from?: string;
}

const SPEED_DEFAULT = 60;
const SPEED_MAX = 100_000;
/** A simulated shed opens at this time of day: the first floods of the day come soon. */
const OPENS_DEFAULT = '05:30';
/** Weather is made for this many days when no end is asked for; then the run ends by itself. */
const DAYS_MAX = 60;

const speedFrom = (text: string | undefined): number | 'max' => {
  if (text === undefined) return SPEED_DEFAULT;
  return text === 'max' ? 'max' : numberWithin(text, '--speed', 0.1, SPEED_MAX);
};

/** The words of an entry begin at this column, and go on there on the next line. */
const WORDS_COLUMN = '2026-07-14 05:31  '.length;

/** Ends the run at SIGINT, SIGTERM, or when the terminal is closed. */
const stopSignal = (): AbortSignal => {
  const stop = new AbortController();
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.once(signal, () => {
      stop.abort();
    });
  }
  return stop.signal;
};

/** `rillkeeper run FARM`: the controller on a board. The only board so far is the simulated shed. */
export const run = async (path: string, options: RunOptions, console: Console): Promise<ExitCode> => {
  const accepted = await acceptedFarm(path);
  const { farm } = accepted;
  const source = await weatherFor(accepted, options, console);
  const speed = speedFrom(options.speed);
  const minutes = options.for === undefined ? null : spanMinutes(options.for, '--for');
  if (minutes !== null && minutes > DAYS_MAX * 24 * 60) {
    throw new Refusal(`--for: found "${options.for ?? ''}"; allowed is up to ${DAYS_MAX}d.`, EXIT.usage);
  }
  const seed = options.seed === undefined ? 1 : wholeNumber(options.seed, '--seed', 0, 2_147_483_647);
  const zone = farm.place.timeZone;
  const day = localDayOn(todayFor(farm, localDayOf(wallMillis(Date.now()), zone).date), zone);
  const startMillis = localClockInstant(day, minuteOfDay(options.from ?? OPENS_DEFAULT, '--from'));
  const faults = (options.fault ?? []).map((text) => faultFrom(text, day));

  if (options.rehearse === true) {
    const rehearsal = await rehearseFarm(
      accepted,
      { kind: 'hot-day' },
      { draws: String(DRAWS_DEFAULT) },
      Date.now(),
      console,
    );
    console.out(
      options.json === true
        ? JSON.stringify({ kind: 'rehearsal', ...rehearsalJson(rehearsal) })
        : `${rehearsalText(rehearsal, console.columns)}\n`,
    );
  }
  const days = minutes === null ? DAYS_MAX : Math.ceil(minutes / 1440);
  const found = skyOver(farm, source, startMillis, days + 1, 0);
  if (!found.ok) throw new Refusal(`the weather does not reach: ${found.reason}.`);
  const pace = speed === 'max' ? 'as fast as it goes' : `${speed}× real time`;
  console.talk(`${farm.farm} in a simulated shed, ${pace}. Ctrl-C ends it.`);

  const stop = AbortSignal.any([stopSignal(), console.unread]);
  const { board, clock } = liveShed({ farm, sky: found.sky, startMillis, faults, seed, speed, stop });
  const append = (entries: readonly Entry[]): void => {
    for (const entry of entries) {
      const line = options.json === true ? entryJson(entry) : entryLine(entry, zone);
      if (line === null) continue;
      const toPerson = console.outAtTerminal && options.json !== true;
      console.out(toPerson ? wrapped(line, console.columns, WORDS_COLUMN) : line);
    }
  };
  await runLoop({
    farm,
    board,
    clock,
    journal: { append },
    until: afterMinutes(clock.now().monotonic, minutes ?? DAYS_MAX * 1440),
    stop,
  });
  return EXIT.done;
};
