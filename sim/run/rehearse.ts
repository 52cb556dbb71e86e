import type { Farm } from '../../src/farm/farm.ts';
import { LIMITS } from '../../src/farm/limits.ts';
import type { Entry } from '../../src/journal/entry.ts';
import { itemAt } from '../../src/units/assertion.ts';
import { seededDice } from '../dice.ts';
import type { Fault } from '../faults/fault.ts';
import { CENTRAL, drawnJudgements, type Judgements } from '../plant/judgements.ts';
import type { Plant } from '../plant/plant.ts';
import type { Sky } from '../weather/sky.ts';
import { drive } from './drive.ts';
import { openShed } from './shed.ts';
import { tallyOf, type Extreme, type PumpRun, type Tally } from './tally.ts';
import { traceOf, type Moment } from './trace.ts';
import { worstMiss, worstTimeLeft, type OneMiss, type TimeLeftFound } from './what-if.ts';

const MINUTE_MILLIS = 60_000;
const HOUR_MILLIS = 60 * MINUTE_MILLIS;
/** The shed runs this long before the day that counts, so that nothing hangs on how it was started, */
export const WARM_UP_MILLIS = 12 * HOUR_MILLIS;
/** and this long after it, so that its last flood, the longest rest and the flood after that can be judged. */
export const RUN_OUT_MILLIS = (LIMITS.restMinutes.most + 2 * LIMITS.floodMinutes.most) * MINUTE_MILLIS;
/** Weather is asked for up to a day after that: how long would the crop last? */
export const OUTLOOK_MILLIS = 25 * HOUR_MILLIS;

/** With scripted faults the shed is watched for a day longer: a pump that dies at night wilts the crop next morning. */
export const FAULT_WATCH_MILLIS = 24 * HOUR_MILLIS;

/** Over a day nobody adds salts; over more than one somebody does each morning, as the probe shows. */
const DOSED_MILLIS = 36 * HOUR_MILLIS;

/** The board may close its relay this long after it was told to. */
const LAG_MILLIS = 1000;

/** The stretch that counts: a day, or some days on end. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

export interface RehearsalAsked {
  readonly farm: Farm;
  readonly span: Span;
  /** Must answer from WARM_UP before the span to RUN_OUT and OUTLOOK after it, which is beyond FAULT_WATCH. */
  readonly sky: Sky;
  readonly faults: readonly Fault[];
  readonly seed: number;
}

/** Which run of a rehearsal: with the central parameters, or the draw of this number, from 0 on. */
export type Run = number | 'central';

/** Of the span; with scripted faults lowest, warmest, strongest and wilted are also of the day after it. */
export interface BenchOutcome {
  readonly lowest: Extreme;
  readonly warmest: Extreme;
  /** mg/L in the held water. */
  readonly lowestOxygen: Extreme;
  /** Of the held water while the bench is above its wilt floor, mS/cm; null where it never is: dried salts have no strength. */
  readonly strongest: number | null;
  readonly wiltedAtMillis: number | null;
  readonly belowStressMinutes: number;
  /** Longest stretch without water running in, counted to the end of the day. */
  readonly longestRestMinutes: number;
  readonly drunkLitres: number;
  readonly timeLeft: TimeLeftFound;
  readonly oneMiss: OneMiss;
}

/** A tank that is dosed each morning and drunk from all day ends a day as it began: only the range tells. */
export interface TankStrength {
  readonly start: number;
  readonly end: number;
  readonly weakest: number;
  readonly strongest: number;
}

/** One run of the day: the central parameters, or one draw. */
export interface Outcome {
  readonly draw: Run;
  readonly judgements: Judgements;
  readonly benches: readonly BenchOutcome[];
  readonly pumpMinutes: number;
  readonly drunkLitres: number;
  /** Of the tank, mS/cm. */
  readonly strength: TankStrength;
  readonly tankLitresLowest: number;
  /** Of the day; with scripted faults also of the day after it. */
  readonly entries: readonly Entry[];
  readonly moments: readonly Moment[];
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

/** The runs of the pump that were floods: how long a run is does not tell, since seedlings get floods as short as a sip. */
const floodsOf = (runs: readonly PumpRun[], entries: readonly Entry[]): readonly PumpRun[] => {
  const starts = entries.flatMap(({ kind, at }) => (kind === 'flood-started' ? [at] : []));
  return runs.filter(({ fromMillis, untilMillis }) =>
    starts.some((at) => at > fromMillis - LAG_MILLIS && at < untilMillis),
  );
};

const NEVER_MISSED: OneMiss = { theta: Infinity, missedAtMillis: 0 };

/** Draw n is the n-th that these dice give, whoever asks for it and however many are asked for. */
const judgementsOf = (seed: number, draw: Run): Judgements => {
  if (draw === 'central') return CENTRAL;
  const dice = seededDice(seed);
  for (let before = 0; before < draw; before += 1) drawnJudgements(dice);
  return drawnJudgements(dice);
};

/** One run of the day, or of the days on end; it hangs on no other run. */
export const rehearsedRun = (asked: RehearsalAsked, draw: Run): Outcome => {
  const { farm, span, sky, faults } = asked;
  const judgements = judgementsOf(asked.seed, draw);
  const dice = seededDice(asked.seed * 7919 + (draw === 'central' ? 0 : draw + 1));
  const shed = openShed({
    farm,
    sky,
    judgements,
    faults,
    dice,
    startMillis: span.start - WARM_UP_MILLIS,
    doses: span.end - span.start > DOSED_MILLIS,
  });
  const { plant } = shed;
  const tally = tallyOf(plant, span.start, span.end, farm.floors);
  const trace = traceOf(plant, span.start, span.end);
  const watchedUntil = faults.length === 0 ? span.end : span.end + FAULT_WATCH_MILLIS;
  const watch = faults.length === 0 ? tally : tallyOf(plant, span.start, watchedUntil, farm.floors);
  const until = Math.max(watchedUntil, span.end + RUN_OUT_MILLIS);
  let atStart: DayMarks = marksOf(plant);
  let atEnd: DayMarks = atStart;
  let tankLitresLowest = Infinity;
  let [weakest, strongest] = [Infinity, 0];
  const { entries, beforeStarts } = drive(farm, shed, until, (state, minutes) => {
    tally.witness(state, minutes);
    trace.witness(state, minutes);
    if (watch !== tally) watch.witness(state, minutes);
    if (state.atMillis <= span.start) atStart = marksOf(plant);
    else if (state.atMillis <= span.end) {
      atEnd = marksOf(plant);
      tankLitresLowest = Math.min(tankLitresLowest, state.tank.litres);
      weakest = Math.min(weakest, strengthOf(plant));
      strongest = Math.max(strongest, strengthOf(plant));
    }
  });
  const startsToday = beforeStarts.filter(
    ({ state }) => state.atMillis >= span.start && state.atMillis < span.end,
  );
  // Where something is broken already nobody asks what one more failure would do.
  const whatIf = faults.length === 0 ? startsToday : [];
  const lefts = worstTimeLeft(whatIf, farm.floors.wilt);
  const misses = worstMiss(whatIf, floodsOf(tally.pumpRuns, entries));
  const drunk = atEnd.drunk.map((litres, place) => litres - (atStart.drunk[place] ?? 0));
  return {
    draw,
    judgements,
    benches: watch.lowestTheta.map((lowest, place) => ({
      lowest,
      warmest: itemAt(watch.warmestCelsius, place),
      lowestOxygen: itemAt(watch.lowestOxygen, place),
      strongest: watch.strongest[place] ?? null,
      wiltedAtMillis: watch.wiltedAtMillis[place] ?? null,
      belowStressMinutes: tally.belowStressMinutes[place] ?? 0,
      longestRestMinutes: tally.longestRestMinutes[place] ?? 0,
      drunkLitres: drunk[place] ?? 0,
      timeLeft: lefts[place] ?? { minutes: 0, failedAtMillis: span.start },
      oneMiss: misses[place] ?? NEVER_MISSED,
    })),
    pumpMinutes: tally.pumpMinutes,
    drunkLitres: drunk.reduce((sum, litres) => sum + litres, 0),
    strength: { start: atStart.strength, end: atEnd.strength, weakest, strongest },
    tankLitresLowest,
    entries: entries.filter((entry) => entry.at >= span.start && entry.at < watchedUntil),
    moments: trace.moments,
    pumpRuns: tally.pumpRuns.filter((run) => run.untilMillis > span.start && run.fromMillis < span.end),
  };
};

/** The runs of a rehearsal in their order: the central one, then so many draws of what nobody has measured. */
export const runsOf = (draws: number): readonly Run[] => ['central', ...Array.from({ length: draws }).keys()];

/** All runs one after another, in their order. */
export function* rehearsed(
  asked: RehearsalAsked & { readonly draws: number },
): Generator<Outcome, void, void> {
  for (const draw of runsOf(asked.draws)) yield rehearsedRun(asked, draw);
}
