import { floorSigns, wetSigns } from '../command/interlock.ts';
import {
  allowsWhole,
  tankDenied,
  tankProven,
  tankRule,
  type TankRule,
  type TankSigns,
} from '../command/tank-rule.ts';
import { floodEnded, owing } from '../plan/schedule.ts';
import { switched, tankLitres } from '../sense/senses.ts';
import { farmLitresPerMinute, type Sighting } from '../verify/sighting.ts';
import { usualReturn, withLesson, withTankFall, type Learned } from '../verify/learned.ts';
import { tankFell } from '../verify/flood-verdict.ts';
import { plateauAfter } from '../verify/return-plateau.ts';
import { unprovenBeside } from '../verify/return-trust.ts';
import type { Flood } from '../verify/flood.ts';
import type { Verdict } from '../verify/verdict.ts';
import { watched } from '../verify/watched.ts';
import { minutesBetween } from '../time/instant.ts';
import { isAway, type Memory } from './state.ts';
import { turnedTo, type Turn } from './turn.ts';
import { takenMost } from './uptake.ts';
import { endedByWetFloor, floorIsFlooded, ON_WET_FLOOR, wetFloor } from './wet-floor.ts';

export type PumpNeed = 'on' | 'off' | 'restart' | 'as-it-is';

export interface Judged {
  readonly turn: Turn;
  /** What the flood under way asks of the pump. */
  readonly need: PumpNeed;
}

/** A rest that is as long as it has to be is not shorter for a moment's rounding. */
const MOMENT_MINUTES = 0.5;

/**
 * One that somebody asks for before any rest of the farm is over finds the channels full, and gives more than is usual. What a
 * sensor says that shows water before the pump runs may come from the flood before too, or from nothing.
 */
const isUsual = ({ farm, state }: Turn, { startedAt, returnAtStart }: Flood): boolean => {
  const { restMinutesByDay, restMinutesByNight } = farm.bounds;
  const { lastEnd } = state.schedule;
  const shortest = Math.min(restMinutesByDay.shortest, restMinutesByNight.shortest);
  return (
    returnAtStart !== 'seen' &&
    (lastEnd === null || minutesBetween(lastEnd, startedAt) >= shortest - MOMENT_MINUTES)
  );
};

const lessonOf = (turn: Turn, flood: Flood, verdict: Verdict): Learned => {
  const { learned } = turn.state;
  if (verdict.kind !== 'confirmed') return learned;
  if (flood.waterFirstAt === null)
    return { ...withTankFall(learned), byFarmFile: farmLitresPerMinute(turn.farm) };
  if (!isUsual(turn, flood)) return learned;
  const { minutes, endLitresPerMinute } = flood;
  return withLesson(
    {
      ...learned,
      // What the roots lacked as the board began it nobody here knows.
      plateau:
        flood.unwatchedUntil === null
          ? plateauAfter(learned.plateau, flood, takenMost(turn, flood))
          : learned.plateau,
      byFarmFile: farmLitresPerMinute(turn.farm),
    },
    // Of water that came back unseen nobody knows when.
    flood.retries === 0 && flood.unwatchedUntil === null
      ? minutesBetween(flood.attemptAt, flood.waterFirstAt)
      : null,
    endLitresPerMinute === null ? null : { minutes, litresPerMinute: endLitresPerMinute },
  );
};

/** A flood that was stopped, or whose mains were lost, says nothing of the filter. */
const isWeak = ({ mains }: Memory, { why }: Extract<Verdict, { kind: 'degraded' }>): boolean =>
  why !== 'stopped' && (mains.lostSince === null || mains.word === 'denied');

/**
 * Whether a flood of which nothing saw the water takes the alarm of a missed one away: where nothing could see it then either,
 * or where power that was not there then is there now. A return that has fallen silent since has seen nothing.
 */
const showsMended = (
  { farm, state }: Turn,
  { contact, current }: Pick<Flood, 'contact' | 'current'>,
): boolean => {
  const { missed } = state.memory;
  return (
    farm.evidence.returnFlow === 'none' ||
    (missed?.current === 'not-seen' && current === 'seen') ||
    (missed?.contact === 'not-seen' && contact === 'seen')
  );
};

/** What a flood has shown of what may be told of others. */
export interface Shown {
  /** Whether any water was seen of it. */
  readonly water: boolean;
  /** Whether one of which nothing saw the water takes the alarm of a missed one away. */
  readonly mended: boolean;
}

/** What the alarms keep of a verdict. One that was ended before any water could be seen tells nothing of pump and filter. */
export const remembered = (memory: Memory, verdict: Verdict, { water, mended }: Shown): Memory => {
  switch (verdict.kind) {
    case 'missed':
      return { ...memory, missed: memory.missed ?? verdict.clue };
    case 'degraded':
      if (!water) return memory;
      return { ...memory, missed: null, degraded: isWeak(memory, verdict) ? verdict : memory.degraded };
    case 'confirmed':
      return { ...memory, missed: null, degraded: null };
    case 'unproven':
      return mended ? { ...memory, missed: null } : memory;
    case 'withheld':
      return memory;
  }
};

/** Whether what a flood poured may lie on the floor: where one sign of it is wet, and nothing denies that the pump ran. */
const mayHaveRunOut = (turn: Turn, { contact, current, mains }: Flood): boolean =>
  wetFloor(turn) !== null && ![contact, current, mains].includes('not-seen');

const owedAfter = (verdict: Verdict): string | null => {
  switch (verdict.kind) {
    case 'missed':
      return 'the last one was missed';
    case 'withheld':
      return `the last one was ${verdict.says}`;
    case 'degraded':
      return verdict.why === 'cut-short' ? `the last one was cut short: ${verdict.says}` : null;
    case 'confirmed':
    case 'unproven':
      return null;
  }
};

const ranItsTime = (verdict: Verdict): boolean =>
  verdict.kind === 'confirmed' ||
  verdict.kind === 'unproven' ||
  (verdict.kind === 'degraded' && verdict.why === 'weak');

/** While a sign on the floor is wet no flood is longer than the shortest: such a one is whole, lest the alarm stand on for ever. */
const tankAfter = (turn: Turn, flood: Flood, verdict: Verdict): TankRule => {
  const { tank } = turn.state;
  if (verdict.kind === 'missed') return tankDenied(tank, turn.now.monotonic);
  if (!ranItsTime(verdict)) return tank;
  return tankProven(tank, flood.wantedMinutes === undefined || wetFloor(turn) !== null ? 'whole' : 'short');
};

/** Writes the verdict of the flood under way; after one that gave too little water another is owed. */
export const closed = (turn: Turn, flood: Flood, verdict: Verdict): Turn => {
  const { state, now } = turn;
  const ended = floodEnded(state.schedule, now.monotonic);
  const tank = tankAfter(turn, flood, verdict);
  const water = flood.waterFirstAt !== null || tankFell(turn.farm, flood) === 'seen';
  const byTank = verdict.kind === 'confirmed' && flood.waterFirstAt === null;
  const memory = remembered(
    byTank ? { ...state.memory, lastWaterAt: now.monotonic } : state.memory,
    verdict,
    { water, mended: showsMended(turn, flood) },
  );
  const why = owedAfter(verdict);
  const waits =
    why !== null && (floorIsFlooded(turn) || (verdict.kind !== 'withheld' && mayHaveRunOut(turn, flood)));
  const owed = waits ? `${why}${ON_WET_FLOOR}` : why;
  return turnedTo(
    turn,
    {
      flood: null,
      schedule: owed === null ? ended : owing(ended, owed),
      tank,
      learned: lessonOf(turn, flood, verdict),
      memory: { ...memory, shut: tank.kind === 'returning' && allowsWhole(tank) ? null : memory.shut },
    },
    [{ kind: 'verdict', flood: flood.id, part: flood.part, verdict }],
  );
};

/** A flood of which nobody saw the end takes no alarm away: neither of one that was missed, nor of the tank. */
export const withAlarmsOf = (before: Turn, judged: Turn): Turn => {
  const { tank, memory } = before.state;
  const missed = judged.state.memory.missed ?? memory.missed;
  return turnedTo(judged, { tank, memory: { ...judged.state.memory, missed, shut: memory.shut } });
};

/** The same for a flood whose end nobody here saw: where the end of its pump is known, the rest counts from there. */
export const closedUnseen = (turn: Turn, flood: Flood, verdict: Verdict): Turn => {
  const { lastEnd } = turn.state.schedule;
  const judged = closed(turn, flood, verdict);
  const over = verdict.kind === 'unproven' ? withAlarmsOf(turn, judged) : judged;
  return lastEnd === null || lastEnd < flood.attemptAt
    ? over
    : turnedTo(over, { schedule: floodEnded(over.state.schedule, lastEnd) });
};

/** Water and current of a pump that runs unasked are none of a sip: what circulates may be the last of the tank. */
const tankNow = (turn: Turn, seen: Sighting): Turn => {
  const { farm, state, now } = turn;
  const { unasked, runsOn } = state.memory;
  const bySip = unasked === null && runsOn === null;
  const signs: TankSigns = {
    float: switched(state.senses, 'tank-float', now.monotonic),
    water: bySip ? seen.water : 'unknown',
    current: bySip ? seen.current : 'unknown',
    litres: tankLitres(state.senses, now.monotonic),
  };
  const tank = tankRule(farm, state.tank, signs, state.sips, now.monotonic);
  return tank === state.tank ? turn : turnedTo(turn, { tank });
};

/**
 * Whether a start anew could bring water: none brings the mains back, and where a sign of water on the floor is wet what
 * does not come back more likely runs out there, and each try would pour as much after it.
 */
const mayRetry = ({ farm, state, now }: Turn, { mains }: Sighting): boolean =>
  state.tank.kind !== 'low' &&
  mains !== 'not-seen' &&
  wetSigns(farm, floorSigns(state.senses, now.monotonic)) === null;

/** A flood that is unproven beside a return sensor in doubt is so for that doubt. */
const watchedToEnd = (turn: Turn, { kind }: Verdict): Turn => {
  const { memory } = turn.state;
  return kind === 'unproven'
    ? turnedTo(turn, { memory: { ...memory, returnTrust: unprovenBeside(memory.returnTrust) } })
    : turn;
};

/** Holds what was asked against what is seen: the flood under way goes on, is tried again, or gets its verdict. */
export const judge = (before: Turn, seen: Sighting): Judged => {
  if (isAway(before.state)) return { turn: before, need: 'as-it-is' };
  const turn = endedByWetFloor(tankNow(before, seen));
  const { farm, state, now } = turn;
  if (state.flood === null) return { turn, need: 'as-it-is' };
  const result = watched(
    farm,
    state.flood,
    seen,
    usualReturn(state.learned, farmLitresPerMinute(farm), state.flood.minutes),
    mayRetry(turn, seen),
    now.monotonic,
  );
  switch (result.kind) {
    case 'going':
      return { turn: turnedTo(turn, { flood: result.flood }), need: result.pump };
    case 'again':
      return {
        turn: turnedTo(turn, { flood: result.flood }, [
          { kind: 'flood-retried', flood: result.flood.id, retry: result.flood.retries },
        ]),
        need: 'restart',
      };
    case 'over':
      return {
        turn: watchedToEnd(closed(turn, result.flood, result.verdict), result.verdict),
        need: result.verdict.kind === 'missed' ? 'as-it-is' : 'off',
      };
  }
};
