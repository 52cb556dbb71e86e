import type { Farm } from '../../src/farm/farm.ts';
import type { Entry } from '../../src/journal/entry.ts';
import type { LocalDay } from '../../src/time/local-day.ts';
import { itemAt } from '../../src/units/assertion.ts';
import { seededDice } from '../dice.ts';
import type { Fault } from '../faults/fault.ts';
import { CENTRAL, drawnJudgements, type Judgements } from '../plant/judgements.ts';
import type { Plant } from '../plant/plant.ts';
import type { Sky } from '../weather/sky.ts';
import { drive } from './drive.ts';
import { openShed } from './shed.ts';
import { tallyOf, type Extreme, type Tally } from './tally.ts';
import { worstMiss, worstTimeLeft, type OneMiss, type TimeLeftFound } from './what-if.ts';

const HOUR_MILLIS = 3_600_000;
/** The shed runs this long before the day that counts, so that nothing hangs on how it was started, */
export const WARM_UP_MILLIS = 12 * HOUR_MILLIS;
/** and this long after it, so that its last floods can be judged by what follows them. */
export const RUN_OUT_MILLIS = 6 * HOUR_MILLIS;
/** Weather is asked for up to a day after that: how long would the crop last? */
export const OUTLOOK_MILLIS = 25 * HOUR_MILLIS;

/** With scripted faults the shed is watched for a day longer: a pump that dies at night wilts the crop next morning. */
export const FAULT_WATCH_MILLIS = 24 * HOUR_MILLIS;

/** Shorter runs of the pump are sips and primes, not floods. */
const FLOOD_MINUTES_MIN = 2;

export interface RehearsalAsked {
  readonly farm: Farm;
  readonly day: LocalDay;
  /** Must answer from WARM_UP before the day to RUN_OUT and OUTLOOK after it, which is beyond FAULT_WATCH. */
  readonly sky: Sky;
  readonly faults: readonly Fault[];
  /** How many draws of the unmeasured parameters besides the central run. */
  readonly draws: number;
  readonly seed: number;
}

export interface BenchOutcome {
  readonly lowest: Extreme;
  readonly warmest: Extreme;
  /** On the day; with scripted faults also on the day after it. */
  readonly wiltedAtMillis: number | null;
  readonly belowStressMinutes: number;
  /** Longest stretch without water running in, counted to the end of the day. */
  readonly longestRestMinutes: number;
  readonly drunkLitres: number;
  readonly timeLeft: TimeLeftFound;
  readonly oneMiss: OneMiss;
}

/** One run of the day: the central parameters, or one draw. */
export interface Outcome {
  readonly draw: number | 'central';
  readonly benches: readonly BenchOutcome[];
  readonly pumpMinutes: number;
  readonly drunkLitres: number;
  readonly strength: { readonly start: number; readonly end: number };
  readonly tankLitresLowest: number;
  /** Of the day; with scripted faults also of the day after it. */
  readonly entries: readonly Entry[];
  readonly trace: Tally['trace'];
  readonly pumpRuns: Tally['pumpRuns'];
}

interface DayMarks {
  drunk: readonly number[];
  strength: number;
}

const strengthOf = ({ state: { tank } }: Plant): number => (tank.litres > 0 ? tank.salts / tank.litres : 0);
const marksOf = (plant: Plant): DayMarks => ({
  drunk: plant.state.benches.map((bench) => bench.drunkLitres),
  strength: strengthOf(plant),
});

const NEVER_MISSED: OneMiss = { theta: Infinity, missedAtMillis: 0 };

const runOnce = (asked: RehearsalAsked, draw: number | 'central', judgements: Judgements): Outcome => {
  const { farm, day, sky, faults } = asked;
  const dice = seededDice(asked.seed * 7919 + (draw === 'central' ? 0 : draw + 1));
  const shed = openShed({ farm, sky, judgements, faults, dice, startMillis: day.start - WARM_UP_MILLIS });
  const { plant } = shed;
  const tally = tallyOf(plant, day.start, day.end, farm.floors);
  const watchedUntil = faults.length === 0 ? day.end : day.end + FAULT_WATCH_MILLIS;
  const watch = faults.length === 0 ? tally : tallyOf(plant, day.start, watchedUntil, farm.floors);
  const until = Math.max(watchedUntil, day.end + RUN_OUT_MILLIS);
  let atStart: DayMarks = marksOf(plant);
  let atEnd: DayMarks = atStart;
  let tankLitresLowest = Infinity;
  const { entries, beforeStarts } = drive(farm, shed, until, (state, minutes) => {
    tally.witness(state, minutes);
    if (watch !== tally) watch.witness(state, minutes);
    if (state.atMillis <= day.start) atStart = marksOf(plant);
    else if (state.atMillis <= day.end) {
      atEnd = marksOf(plant);
      tankLitresLowest = Math.min(tankLitresLowest, state.tank.litres);
    }
  });
  const startsToday = beforeStarts.filter(
    ({ state }) => state.atMillis >= day.start && state.atMillis < day.end,
  );
  const lefts = worstTimeLeft(startsToday, farm.floors.wilt);
  const misses = worstMiss(startsToday, tally.pumpRuns, FLOOD_MINUTES_MIN);
  const drunk = atEnd.drunk.map((litres, place) => litres - (atStart.drunk[place] ?? 0));
  return {
    draw,
    benches: tally.lowestTheta.map((lowest, place) => ({
      lowest,
      warmest: itemAt(tally.warmestCelsius, place),
      wiltedAtMillis: watch.wiltedAtMillis[place] ?? null,
      belowStressMinutes: tally.belowStressMinutes[place] ?? 0,
      longestRestMinutes: tally.longestRestMinutes[place] ?? 0,
      drunkLitres: drunk[place] ?? 0,
      timeLeft: lefts[place] ?? { minutes: 0, failedAtMillis: day.start },
      oneMiss: misses[place] ?? NEVER_MISSED,
    })),
    pumpMinutes: tally.pumpMinutes,
    drunkLitres: drunk.reduce((sum, litres) => sum + litres, 0),
    strength: { start: atStart.strength, end: atEnd.strength },
    tankLitresLowest,
    entries: entries.filter((entry) => entry.at >= day.start && entry.at < watchedUntil),
    trace: tally.trace,
    pumpRuns: tally.pumpRuns.filter((run) => run.untilMillis > day.start && run.fromMillis < day.end),
  };
};

/**
 * Rehearses one local day: once with the central parameters, then with draws of what nobody has measured.
 * Yields one outcome at a time, the central one first, so that a caller can show how far it is.
 */
export function* rehearsed(asked: RehearsalAsked): Generator<Outcome, void, void> {
  yield runOnce(asked, 'central', CENTRAL);
  const dice = seededDice(asked.seed);
  for (let draw = 0; draw < asked.draws; draw += 1) {
    yield runOnce(asked, draw, drawnJudgements(dice));
  }
}
