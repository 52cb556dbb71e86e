import { wallMillis } from '../../src/time/instant.ts';
import { dayAfter, localDayOf, localDayOn, type LocalDay } from '../../src/time/local-day.ts';
import {
  adviceOn,
  faultCall,
  judgeRehearsal,
  rehearsal as rehearsalRuns,
  skyForDay,
  type Outcome,
  type WeatherSource,
} from '../simulated-shed.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { acceptedFarm, todayFor, type AcceptedFarm } from './farm-argument.ts';
import { faultFrom } from './fault-argument.ts';
import { progressOf } from './progress.ts';
import { Refusal } from './refusal.ts';
import { rehearsalJson } from './rehearsal-json.ts';
import { rehearsalText } from './rehearsal-report.ts';
import type { Rehearsal } from './rehearsal.ts';
import { calendarDate, numberWithin, wholeNumber } from './times.ts';
import { weatherFor, type WeatherOptions } from './weather-argument.ts';

/** Runs beside the central one, unless asked otherwise. */
export const DRAWS_DEFAULT = 4;
const DRAWS_MAX = 1000;
const SEED_MAX = 2_147_483_647;

export interface RehearseOptions extends WeatherOptions {
  readonly date?: string;
  readonly hotter?: string;
  readonly fault?: readonly string[];
  readonly draws?: string;
  readonly seed?: string;
  readonly json?: boolean;
}

const tomorrow = ({ farm }: AcceptedFarm, nowMillis: number): LocalDay => {
  const zone = farm.place.timeZone;
  return dayAfter(localDayOn(todayFor(farm, localDayOf(wallMillis(nowMillis), zone).date), zone));
};

/** Lets the event loop run between two outcomes, so that a signal or the bar gets its turn. */
const breath = (): Promise<void> =>
  new Promise((go) => {
    setImmediate(go);
  });

export const rehearseFarm = async (
  accepted: AcceptedFarm,
  source: WeatherSource,
  options: RehearseOptions,
  nowMillis: number,
  console: Console,
): Promise<Rehearsal> => {
  const { farm } = accepted;
  const day =
    options.date === undefined
      ? tomorrow(accepted, nowMillis)
      : localDayOn(calendarDate(options.date, '--date'), farm.place.timeZone);
  const hotter = options.hotter === undefined ? 0 : numberWithin(options.hotter, '--hotter', -20, 20);
  const draws =
    options.draws === undefined ? DRAWS_DEFAULT : wholeNumber(options.draws, '--draws', 0, DRAWS_MAX);
  const seed = options.seed === undefined ? 1 : wholeNumber(options.seed, '--seed', 0, SEED_MAX);
  const faults = (options.fault ?? []).map((text) => faultFrom(text, day));
  const found = skyForDay(farm, source, day, hotter);
  if (!found.ok) throw new Refusal(`the weather does not reach: ${found.reason}.`);
  const outcomes: Outcome[] = [];
  const progress = progressOf('rehearsing', draws + 1, console);
  for (const outcome of rehearsalRuns({ farm, day, sky: found.sky, faults, draws, seed })) {
    outcomes.push(outcome);
    progress.done(outcomes.length);
    await breath();
  }
  progress.stop();
  const verdict = judgeRehearsal(farm, outcomes, faults);
  const advice = adviceOn(farm, day, outcomes, verdict, faults);
  const call = faultCall(farm, outcomes, faults);
  return { farm, day, weather: found.says, seed, faults, call, outcomes, verdict, advice };
};

/** `rillkeeper rehearse FARM` */
export const rehearse = async (
  path: string,
  options: RehearseOptions,
  console: Console,
): Promise<ExitCode> => {
  const accepted = await acceptedFarm(path);
  const source = await weatherFor(accepted, options, console);
  const rehearsal = await rehearseFarm(accepted, source, options, Date.now(), console);
  console.out(
    options.json === true
      ? JSON.stringify(rehearsalJson(rehearsal), null, 2)
      : rehearsalText(rehearsal, console.columns),
  );
  return rehearsal.verdict.kind === 'may-wilt' ? EXIT.notWell : EXIT.done;
};
