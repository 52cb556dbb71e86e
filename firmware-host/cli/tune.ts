import { localDayOn } from '../../src/time/local-day.ts';
import { itemAt } from '../../src/units/assertion.ts';
import { applyPlanChange, checkedText } from '../farm-file/apply-plan-change.ts';
import type { PlanChange } from '../farm-file/plan-change.ts';
import { tellUnchanged } from '../farm-file/tell.ts';
import { textDiff } from '../farm-file/text-diff.ts';
import { skyForSpan, UNCHANGED } from '../simulated-shed.ts';
import { candidatesOf, cheapestSafe, type Searching } from '../tune/search.ts';
import { changeTo } from '../tune/setting.ts';
import type { SettingsJob } from '../tune/tune-job.ts';
import { tuned } from '../tune/tuned.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { acceptedFarm, type AcceptedFarm } from './farm-argument.ts';
import { progressOf, type Progress } from './progress.ts';
import { Refusal } from './refusal.ts';
import { drawsFrom, firstDay, spanOf } from './rehearse.ts';
import { stopSignal } from './stop-signal.ts';
import { seedFrom, wholeNumber } from './times.ts';
import { tunedJson } from './tune-json.ts';
import {
  lostFrom,
  pumpShareFrom,
  replantedFarm,
  settingsFrom,
  tunedParts,
  type TuneRangeOptions,
  type WhatIfOptions,
} from './tune-options.ts';
import { tunedText, type Asked, type Week } from './tune-text.ts';
import { weatherChanges, type WeatherChangeOptions } from './weather-changes.ts';
import { weatherFor, type WeatherOptions } from './weather-argument.ts';
import { wrapped } from './wrap.ts';

export interface TuneOptions extends WeatherOptions, WeatherChangeOptions, TuneRangeOptions, WhatIfOptions {
  readonly date?: string;
  readonly days?: string;
  readonly weeks?: string;
  readonly draws?: string;
  readonly apply?: boolean;
  readonly json?: boolean;
  readonly report?: string;
}

const DAYS_DEFAULT = 3;
const DAYS_MAX = 14;
const WEEKS_DEFAULT = 3;
const WEEKS_MAX = 12;
const WEEK_DAYS = 7;

/** One bar after another, each for its own stretch of work. */
const bars = (console: Console): { readonly show: Searching['progress']; readonly stop: () => void } => {
  let bar: Progress | null = null;
  let shown = '';
  return {
    show: (what, done, total) => {
      if (what !== shown) {
        bar?.stop();
        bar = progressOf(what, total, console);
        shown = what;
      }
      bar?.done(done);
    },
    stop: () => bar?.stop(),
  };
};

const later = (date: string, days: number): string =>
  new Date(Date.parse(`${date}T12:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);

/** May have changed since it was asked last. */
const isStopped = ({ signal }: Searching): boolean => signal.aborted;

/**
 * The cheapest safe plan for the same crop, some weeks on; null where the search was stopped.
 * @throws Refusal when the weather does not reach
 */
const weekOf = async (searching: Searching, weeks: number): Promise<Week | null> => {
  if (isStopped(searching)) return null;
  const date = later(searching.job.date, weeks * WEEK_DAYS);
  const job = { ...searching.job, date };
  const found = weatherOn(job);
  const aged = { ...searching, job };
  const smallest = await cheapestSafe(aged, await candidatesOf(aged));
  if (isStopped(searching)) return null;
  return {
    date,
    weather: found,
    setting: smallest === null ? null : itemAt(job.settings, smallest.place),
    floods: smallest?.cost.floods ?? null,
  };
};

/** What the weather of a job is called. @throws Refusal when it does not reach */
const weatherOn = ({ farm, source, changes, date, days }: SettingsJob): string => {
  const span = spanOf(localDayOn(date, farm.place.timeZone), days);
  const found = skyForSpan(farm, source, span, changes);
  if (!found.ok) throw new Refusal(`the weather does not reach: ${found.reason}.`);
  return found.says;
};

const jobFrom = async (
  accepted: AcceptedFarm,
  options: TuneOptions,
  console: Console,
): Promise<SettingsJob> => {
  const day = firstDay(accepted, options.date, Date.now());
  const days = options.days === undefined ? DAYS_DEFAULT : wholeNumber(options.days, '--days', 1, DAYS_MAX);
  const places = tunedParts(accepted.farm, options.part);
  return {
    farm: replantedFarm(accepted.farm, options.replanted ?? [], day.date),
    source: await weatherFor(accepted, options, console),
    changes: weatherChanges(options, day, days),
    date: day.date,
    days,
    draws: drawsFrom(options.draws),
    seed: seedFrom(options.seed),
    tuned: places,
    pumpShare: pumpShareFrom(options.weakerPump),
    lostMinuteOfDay: lostFrom(options.lost),
    settings: settingsFrom(accepted.farm, places, options),
  };
};

/** Another world than the one that the farm file tells of. */
const isWhatIf = ({ changes, pumpShare, lostMinuteOfDay }: SettingsJob, options: TuneOptions): boolean =>
  changes !== UNCHANGED ||
  pumpShare !== 1 ||
  lostMinuteOfDay !== null ||
  (options.replanted ?? []).length > 0;

/** Writes the smallest safe plan into the farm file. */
const applied = async (
  accepted: AcceptedFarm,
  change: PlanChange | null,
  wasStopped: boolean,
  console: Console,
): Promise<ExitCode> => {
  if (change === null) {
    console.talk(
      wasStopped
        ? 'Nothing was written: the search was stopped before a plan was found to be safe.'
        : 'Nothing was written: no plan that was tried is safe in every run.',
    );
    return EXIT.notWell;
  }
  const { kind, says } = await applyPlanChange(accepted, change);
  console.talk(wrapped(says, console.columns));
  return kind === 'refused' ? EXIT.badInput : EXIT.done;
};

/** `rillkeeper tune FARM` */
export const tune = async (path: string, options: TuneOptions, console: Console): Promise<ExitCode> => {
  const report = options.report === undefined ? null : await import('../report/report-file.ts');
  const page = await report?.reportPath(options.report ?? '', 'search');
  const accepted = await acceptedFarm(path);
  const job = await jobFrom(accepted, options, console);
  const weather = weatherOn(job);
  const weeksAsked =
    options.weeks === undefined ? WEEKS_DEFAULT : wholeNumber(options.weeks, '--weeks', 0, WEEKS_MAX);
  const { show, stop } = bars(console);
  const signal = AbortSignal.any([stopSignal(), console.unread]);
  const searching: Searching = {
    job,
    startsPerHour: accepted.farm.bounds.startsPerHour,
    progress: show,
    signal,
  };
  const first = await tuned(searching, page !== undefined);
  const weeks: Week[] = [];
  for (let week = 1; week <= weeksAsked; week += 1) {
    const progress: Searching['progress'] = (what, done, of) => {
      show(`week ${week}: ${what}`, done, of);
    };
    const next = await weekOf({ ...searching, progress }, week);
    if (next === null) break;
    weeks.push(next);
  }
  stop();
  const found = { ...first, wasStopped: first.wasStopped || weeks.length < weeksAsked };

  const change = found.smallest === null ? null : changeTo(accepted.farm, found.smallest.setting);
  const checked = change === null ? null : checkedText(accepted, change);
  const diff = checked?.ok === true ? textDiff(accepted.file, accepted.text, checked.text) : '';
  if (checked?.ok === false) console.talk(tellUnchanged(accepted.file, checked.problems));
  const asked: Asked = { farm: accepted.farm, job, weather, weeks, diff, isWhatIf: isWhatIf(job, options) };
  console.out(
    options.json === true
      ? JSON.stringify(tunedJson(asked, found), null, 2)
      : tunedText(asked, found, console.columns),
  );
  // The figures are out by now: a full disk costs the page alone.
  const lost = page === undefined ? null : await report?.writeTuneReport(page, asked, found);
  if (page !== undefined) console.talk(lost ?? `The report stands in ${page}.`);
  const ended =
    options.apply === true
      ? await applied(accepted, change, first.wasStopped, console)
      : found.smallest === null
        ? EXIT.notWell
        : EXIT.done;
  return ended === EXIT.done && typeof lost === 'string' ? EXIT.badInput : ended;
};
