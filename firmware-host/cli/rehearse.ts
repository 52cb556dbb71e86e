import { wallMillis } from '../../src/time/instant.ts';
import { dayAfter, localDayOf, localDayOn, type LocalDay } from '../../src/time/local-day.ts';
import {
  adviceOn,
  faultCall,
  judgeRehearsal,
  rehearsal as rehearsalRuns,
  skyForSpan,
  scenarioOf,
  worstStart,
  type Outcome,
  type RehearsalAsked,
  type Scenario,
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

const tomorrow = ({ farm }: AcceptedFarm, nowMillis: number): LocalDay => {
  const zone = farm.place.timeZone;
  return dayAfter(localDayOn(todayFor(farm, localDayOf(wallMillis(nowMillis), zone).date), zone));
};

/** A rehearsal of a day on which nobody has scripted anything. */
const PLAIN: Scenario = { says: '', days: 1, faults: () => [] };

/** The flood that is missed the most, by the central run of a day on which nothing breaks. */
const worstStartOf = (runs: Pick<RehearsalAsked, 'farm' | 'span' | 'sky' | 'seed'>): number => {
  const [central] = rehearsalRuns({ ...runs, faults: [], draws: 0 });
  const start = central === undefined ? null : worstStart(runs.farm, central);
  if (start !== null) return start;
  throw new Refusal(
    'no flood of that day would be missed: the scenario needs a planted bench that is flooded.',
  );
};

/** Lets the event loop run between two outcomes, so that a signal or the bar gets its turn. */
const breath = (): Promise<void> =>
  new Promise((go) => {
    setImmediate(go);
  });

const lastOf = (day: LocalDay, days: number): LocalDay => {
  let last = day;
  for (let more = 1; more < days; more += 1) last = dayAfter(last);
  return last;
};

export const rehearseFarm = async (
  accepted: AcceptedFarm,
  source: WeatherSource,
  options: RehearseOptions,
  nowMillis: number,
  console: Console,
): Promise<Rehearsal> => {
  const name = scenarioFrom(options.scenario);
  const scenario = name === null ? PLAIN : scenarioOf(name);
  const day =
    options.date === undefined
      ? tomorrow(accepted, nowMillis)
      : localDayOn(calendarDate(options.date, '--date'), accepted.farm.place.timeZone);
  const days = options.days === undefined ? scenario.days : wholeNumber(options.days, '--days', 1, DAYS_MAX);
  const span = { start: day.start, end: lastOf(day, days).end };
  if (name !== null) playable(name, accepted);
  const farm = scenario.farm?.(accepted.farm, day) ?? accepted.farm;
  const asked = weatherChanges(options, day, days);
  const changes =
    scenario.heatWaveCelsius === undefined
      ? asked
      : withHeatWave(asked, days, scenario.heatWaveCelsius, span);
  const draws =
    options.draws === undefined ? DRAWS_DEFAULT : wholeNumber(options.draws, '--draws', 0, DRAWS_MAX);
  const seed = seedFrom(options.seed);
  const found = skyForSpan(farm, source, span, changes);
  if (!found.ok) throw new Refusal(`the weather does not reach: ${found.reason}.`);
  const runs = { farm, span, sky: found.sky, seed } as const;
  const own = (options.fault ?? []).map((text) => faultFrom(text, day));
  for (const { kind } of own) breakable(kind, `--fault ${kind}`, accepted);
  const faults = [...own, ...scenario.faults({ day, worstStart: () => worstStartOf(runs) })];
  const outcomes: Outcome[] = [];
  const progress = progressOf('rehearsing', draws + 1, console);
  for (const outcome of rehearsalRuns({ ...runs, faults, draws })) {
    outcomes.push(outcome);
    progress.done(outcomes.length);
    await breath();
  }
  progress.stop();
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
  const page = await report?.reportPath(options.report ?? '');
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
