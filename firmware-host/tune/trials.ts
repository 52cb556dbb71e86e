import type { Farm } from '../../src/farm/farm.ts';
import { farmWithin } from '../../src/farm/standing.ts';
import { planGround, plannedFloods, type Floods } from '../../src/plan/planned-floods.ts';
import { MILLIS_PER_MINUTE, wallMillis } from '../../src/time/instant.ts';
import { dayAfter, localClockInstant, localDayOn, type LocalDay } from '../../src/time/local-day.ts';
import { BrokenAssertion, itemAt } from '../../src/units/assertion.ts';
import {
  openJudge,
  RUN_OUT_MILLIS,
  skyForSpan,
  WARM_UP_MILLIS,
  type PlanTrial,
  type QuickVerdict,
  type Sky,
  type Stretch,
  type WeatherChanges,
  type WeatherSource,
} from '../simulated-shed.ts';
import { costOf, type Cost } from './cost.ts';
import { farmWith, type PlanSetting } from './setting.ts';

/** A search of plans as plain data. */
export interface TuneJob {
  readonly farm: Farm;
  readonly source: WeatherSource;
  readonly changes: WeatherChanges;
  /** The first day, and how many on end. */
  readonly date: string;
  readonly days: number;
  /** Besides the central run. */
  readonly draws: number;
  readonly seed: number;
  /** Places of the day parts that are tuned. */
  readonly tuned: readonly number[];
  /** Of its flow, what the pump still gives. */
  readonly pumpShare: number;
  /** The flood that begins nearest to this minute of each day is lost; null where none is. */
  readonly lostMinuteOfDay: number | null;
}

/** Weathers that drawn days are tried under; a made day or a record is one. */
const DRAWN_SKIES = 8;

export interface Trials {
  readonly stretch: Stretch;
  readonly runs: number;
  readonly cost: (setting: PlanSetting) => Cost;
  /** Minutes since the start of the stretch, under the weather of the central run. */
  readonly centralFloods: (setting: PlanSetting) => Floods;
  readonly everyPair: (setting: PlanSetting) => readonly QuickVerdict[];
  readonly keepPairs: (places: readonly number[]) => void;
  readonly quick: (setting: PlanSetting, giveUpBelow: number) => QuickVerdict;
  readonly whole: (setting: PlanSetting, run: number, asked: { readonly traced: boolean }) => PlanTrial;
}

const daysOf = ({ farm, date, days }: TuneJob): readonly LocalDay[] => {
  const found = [localDayOn(date, farm.place.timeZone)];
  while (found.length < days) found.push(dayAfter(itemAt(found, found.length - 1)));
  return found;
};

const skiesOf = (job: TuneJob, span: { readonly start: number; readonly end: number }): readonly Sky[] => {
  const { source } = job;
  const sources: readonly WeatherSource[] =
    source.kind === 'drawn-days'
      ? Array.from({ length: DRAWN_SKIES }, (_, place) => ({ ...source, seed: source.seed + place }))
      : [source];
  return sources.map((each) => {
    const found = skyForSpan(job.farm, each, span, job.changes);
    if (!found.ok) throw new BrokenAssertion(`a search without weather: ${found.reason}`);
    return found.sky;
  });
};

/** The floods without the one that begins nearest to each of these minutes. */
const without = ({ begins, ends }: Floods, lost: readonly number[]): Floods => {
  const gone = new Set(
    lost.map((minute) =>
      begins.reduce(
        (nearest, begin, place) =>
          Math.abs(begin - minute) < Math.abs((begins[nearest] ?? Infinity) - minute) ? place : nearest,
        0,
      ),
    ),
  );
  const isLeft = (_: number, place: number): boolean => !gone.has(place);
  return { begins: begins.filter(isLeft), ends: ends.filter(isLeft) };
};

/**
 * Opens what judges plans: skies, floods of every setting, draws.
 * @throws BrokenAssertion when the weather does not reach: whoever asks has looked before
 */
export const openTrials = (job: TuneJob): Trials => {
  const days = daysOf(job);
  const farm = farmWithin(job.farm, job.date, itemAt(days, days.length - 1).date);
  const span = { start: itemAt(days, 0).start, end: itemAt(days, days.length - 1).end };
  const startMillis = span.start - WARM_UP_MILLIS;
  const minute = (millis: number): number => Math.round((millis - startMillis) / MILLIS_PER_MINUTE);
  const stretch: Stretch = {
    startMillis,
    minutes: minute(span.end + RUN_OUT_MILLIS),
    fromMinute: minute(span.start),
    untilMinute: minute(span.end),
  };
  const skies = skiesOf(job, span);
  const ground = { start: wallMillis(startMillis), minutes: stretch.minutes };
  const grounds = skies.map((sky) =>
    planGround(farm, ground, (epochMillis) => sky.at(epochMillis).airCelsius),
  );
  const within = Uint8Array.from(itemAt(grounds, 0).part, (place) => (job.tuned.includes(place) ? 1 : 0));
  const judge = openJudge({ ...job, skies, stretch, within });
  // What a plan costs and how dry it leaves the benches are asked one after the other.
  let last: { readonly setting: PlanSetting; readonly floods: readonly Floods[] } | null = null;
  const planned = (setting: PlanSetting): readonly Floods[] => {
    if (last?.setting === setting) return last.floods;
    const tried = farmWith(farm, setting);
    last = { setting, floods: grounds.map((each) => plannedFloods(tried, each)) };
    return last.floods;
  };
  const { lostMinuteOfDay } = job;
  const lost =
    lostMinuteOfDay === null ? [] : days.map((day) => minute(localClockInstant(day, lostMinuteOfDay)));
  const given = (setting: PlanSetting): readonly Floods[] =>
    lost.length === 0 ? planned(setting) : planned(setting).map((floods) => without(floods, lost));
  return {
    stretch,
    runs: judge.runs,
    cost: (setting) => costOf(planned(setting), stretch, within),
    centralFloods: (setting) => itemAt(given(setting), 0),
    everyPair: (setting) => judge.everyPair(given(setting)),
    keepPairs: judge.keepPairs,
    quick: (setting, giveUpBelow) => judge.quick(given(setting), giveUpBelow),
    whole: (setting, run, asked) => judge.whole(run, given(setting), asked),
  };
};
