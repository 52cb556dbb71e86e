import { farmWithin } from '../../src/farm/standing.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { dayAfter, localDayOf, localDayOn, type LocalDay } from '../../src/time/local-day.ts';
import {
  adviceOn,
  faultCall,
  judgeRehearsal,
  rehearsedRun,
  runsOf,
  skyForSpan,
  scenarioOf,
  worstStart,
  type Outcome,
  type RehearsalAsked,
  type Scenario,
  type WeatherSource,
  type WorstStart,
} from '../simulated-shed.ts';
import { inParallel, type Done } from '../work/pool.ts';
import type { RehearsalJob } from '../work/rehearse-job.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { acceptedFarm, todayFor, type AcceptedFarm } from './farm-argument.ts';
import { faultFrom } from './fault-argument.ts';
import { progressOf } from './progress.ts';
import { Refusal } from './refusal.ts';
import { rehearsalJson } from './rehearsal-json.ts';
import { rehearsalText } from './rehearsal-report.ts';
import type { Rehearsal } from './rehearsal.ts';
import { breakable, playable, scenarioFrom, weatherPlayed } from './scenario-argument.ts';
import { calendarDate, seedFrom, wholeNumber } from './times.ts';
import { weatherChanges, withHeatWave, type WeatherChangeOptions } from './weather-changes.ts';
import { weatherFor, type WeatherOptions } from './weather-argument.ts';

/** Runs beside the central one, unless asked otherwise. */
const DRAWS_DEFAULT = 32;
const DRAWS_MAX = 1000;
const DAYS_MAX = 60;

export interface RehearseOptions extends WeatherOptions, WeatherChangeOptions {
  readonly date?: string;
  readonly fault?: readonly string[];
  readonly days?: string;
  readonly scenario?: string;
  readonly draws?: string;
  readonly seed?: string;
  readonly json?: boolean;
  /** Where a page of it shall stand. */
  readonly report?: string;
}

/** Tomorrow, as a farm sees it; of an invented one the day after its own. */
const tomorrow = ({ farm }: AcceptedFarm, nowMillis: number): LocalDay => {
  const zone = farm.place.timeZone;
  return dayAfter(localDayOn(todayFor(farm, localDayOf(wallMillis(nowMillis), zone).date), zone));
};

/** A rehearsal of a day on which nobody has scripted anything. */
const PLAIN: Scenario = { says: '', days: 1, faults: () => [] };

/** The flood that is missed the most, by the central run of a day on which nothing breaks. */
const worstStartOf = (asked: Omit<RehearsalAsked, 'faults'>): WorstStart => {
  const start = worstStart(asked.farm, rehearsedRun({ ...asked, faults: [] }, 'central'));
  if (start !== null) return start;
  throw new Refusal(
    'no flood of that day would be missed: the scenario needs a planted bench that is flooded.',
  );
};

/** Every run on as many cores as there are, told in the order of the runs and not in that of their ends. */
const outcomesOf = async (
  job: RehearsalJob,
  draws: number,
  console: Console,
): Promise<readonly Outcome[]> => {
  const runs = runsOf(draws);
  const done: Done<Outcome>[] = [];
  const progress = progressOf('rehearsing', runs.length, console);
  try {
    for await (const one of inParallel('rehearse', job, runs)) {
      done.push(one);
      progress.done(done.length);
    }
  } finally {
    progress.stop();
  }
  return done.toSorted((a, b) => a.index - b.index).map(({ result }) => result);
};

/** The first day that is asked for, or tomorrow. @throws Refusal */
export const firstDay = (accepted: AcceptedFarm, date: string | undefined, nowMillis: number): LocalDay =>
  date === undefined
    ? tomorrow(accepted, nowMillis)
    : localDayOn(calendarDate(date, '--date'), accepted.farm.place.timeZone);

/** So many days on end. */
export const spanOf = (
  day: LocalDay,
  days: number,
): { readonly start: number; readonly end: number; readonly lastDate: string } => {
  let last = day;
  for (let more = 1; more < days; more += 1) last = dayAfter(last);
  return { start: day.start, end: last.end, lastDate: last.date };
};

/** How many draws besides the central run. @throws Refusal */
export const drawsFrom = (text: string | undefined): number =>
  text === undefined ? DRAWS_DEFAULT : wholeNumber(text, '--draws', 0, DRAWS_MAX);

export const rehearseFarm = async (
  accepted: AcceptedFarm,
  source: WeatherSource,
  options: RehearseOptions,
  nowMillis: number,
  console: Console,
): Promise<Rehearsal> => {
  const name = scenarioFrom(options.scenario);
  const scenario = name === null ? PLAIN : scenarioOf(name);
  const day = firstDay(accepted, options.date, nowMillis);
  const days = options.days === undefined ? scenario.days : wholeNumber(options.days, '--days', 1, DAYS_MAX);
  const { lastDate, ...span } = spanOf(day, days);
  const standing = { ...accepted, farm: farmWithin(accepted.farm, day.date, lastDate) };
  if (name !== null) playable(name, standing);
  const farm = scenario.farm?.(standing.farm, day) ?? standing.farm;
  const asked = weatherChanges(options, day, days);
  const changes =
    scenario.heatWaveCelsius === undefined
      ? asked
      : withHeatWave(asked, days, scenario.heatWaveCelsius, span);
  const draws = drawsFrom(options.draws);
  const seed = seedFrom(options.seed);
  const found = skyForSpan(farm, source, span, changes);
  if (!found.ok) throw new Refusal(`the weather does not reach: ${found.reason}.`);
  const own = (options.fault ?? []).map((text) => faultFrom(text, day, standing.farm));
  for (const fault of own) breakable(fault, `--fault ${fault.kind}`, standing);
  const worst = (): WorstStart => worstStartOf({ farm, span, sky: found.sky, seed });
  const faults = [...own, ...scenario.faults({ day, worstStart: worst })];
  const outcomes = await outcomesOf({ farm, source, changes, span, faults, seed }, draws, console);
  const verdict = judgeRehearsal(farm, outcomes, faults);
  return {
    farm,
    scenario: name,
    day,
    days,
    endMillis: span.end,
    weather: found.says,
    seed,
    faults,
    call: faultCall(farm, outcomes, faults),
    outcomes,
    verdict,
    advice: adviceOn(farm, outcomes, verdict, faults),
  };
};

/** `rillkeeper rehearse FARM` */
export const rehearse = async (
  path: string | undefined,
  options: RehearseOptions,
  console: Console,
): Promise<ExitCode> => {
  if (path === undefined)
    throw new Refusal('rehearse: name a farm file, or ask for --scenarios.', EXIT.usage);
  // Only here: a host that rehearses before its run needs no room for the plots.
  const report = options.report === undefined ? null : await import('../report/report-file.ts');
  const page = await report?.reportPath(options.report ?? '', 'rehearsal');
  const accepted = await acceptedFarm(path);
  const source = await weatherFor(accepted, weatherPlayed(options), console);
  const rehearsal = await rehearseFarm(accepted, source, options, Date.now(), console);
  console.out(
    options.json === true
      ? JSON.stringify(rehearsalJson(rehearsal), null, 2)
      : rehearsalText(rehearsal, console.columns),
  );
  if (report !== null && page !== undefined) {
    // The figures are out by now: a full disk costs the page alone.
    const lost = await report.writeReport(page, rehearsal);
    console.talk(lost ?? `The report stands in ${page}.`);
    if (lost !== null) return EXIT.badInput;
  }
  return rehearsal.verdict.kind === 'may-wilt' ? EXIT.notWell : EXIT.done;
};
