import type { Farm } from '../farm/farm.ts';
import type { TimeLeft } from '../estimate/time-left.ts';
import type { Reading } from '../sense/reading.ts';
import type { MonotonicMillis, Now } from '../time/instant.ts';
import type { MissClue, Verdict } from '../verify/verdict.ts';
import type { Card } from './card.ts';
import { missFirstAction, missSeen, NO_MAINS_FIRST_ACTION } from './missed-flood.ts';
import { sinceText, spanText, wiltText } from './words.ts';

const BOARD_FIRST_ACTION: Readonly<Record<Farm['deadBoard'], string>> = {
  'pump-stops':
    'Look at the cable and the lamp of the board; the pump can be run from its own plug meanwhile.',
  'pump-runs': 'Look at cable and board; the pump may run without end and empty the tank.',
  'plain-timer': 'Look at the cable and the lamp of the board, and whether the plain timer floods.',
};

/** Where the board has a table of its own, and only its death stops the floods. */
const KEEPER_FIRST_ACTION: Readonly<Record<Farm['deadBoard'], string>> = {
  'pump-stops': 'See whether the benches are wet, then look at cable and lamp of the board.',
  'pump-runs': 'Look at cable and board; if it is dead the pump may run without end.',
  'plain-timer': 'See whether the benches are wet, then look at cable, board and timer.',
};

/** A message to a telephone must stay short; the journal has all of it. */
const WHY_LETTERS_MAX = 60;
const shortened = (why: string): string =>
  why.length <= WHY_LETTERS_MAX ? why : `${why.slice(0, WHY_LETTERS_MAX - 3)}...`;

/** Everything an alarm may hang on at one moment, as facts. */
export interface Situation {
  readonly now: Now;
  /** Worked out only when a card needs it. */
  readonly left: () => TimeLeft;
  /** Set by a missed flood, cleared by the next one that was not missed. */
  readonly missed: MissClue | null;
  readonly degraded: Extract<Verdict, { kind: 'degraded' }> | null;
  readonly lastWaterAt: MonotonicMillis | null;
  /** Why the pump seems to run though it was asked off, and since when. */
  readonly runsOn: { readonly why: string; readonly since: MonotonicMillis } | null;
  /** Since when the mains of the pump have been lost, and what speaks against it. */
  readonly mainsLost: { readonly since: MonotonicMillis; readonly against: string | null } | null;
  readonly tank: 'well' | 'low' | 'float-suspect' | 'returning';
  readonly tankSince: MonotonicMillis | null;
  readonly waterOnFloor: string | null;
  /** Floods are stopped by an order or an interlock, and half of the time left has gone. */
  readonly shutTooLong: {
    readonly reason: string;
    readonly by: 'person' | 'board' | 'water';
    readonly since: MonotonicMillis;
  } | null;
  readonly air: Reading<number>;
  readonly airBadSince: MonotonicMillis | null;
  /** Why the return sensor is not believed, and since when. */
  readonly flowBad: { readonly why: string; readonly since: MonotonicMillis } | null;
  readonly returnStuckSince: MonotonicMillis | null;
  readonly clockSteppedAt: MonotonicMillis | null;
  /** The board has not answered for a while. */
  readonly boardSilent: { readonly since: MonotonicMillis; readonly why: string } | null;
  /** Whether a board that is not heard has a table of its own to flood by. */
  readonly keeper: 'keeps' | 'none';
}

const missedCard = (farm: Farm, { missed, lastWaterAt, left, now }: Situation): Card | null => {
  if (missed === null) return null;
  const since = sinceText(lastWaterAt ?? missed.startedAt, now, farm.place.timeZone);
  return {
    kind: 'missed-flood',
    priority: 'high',
    cause: `${missSeen(missed)} ${since}.`,
    consequence: wiltText(left(), now, farm.place.timeZone),
    firstAction: missFirstAction(missed),
  };
};

const mainsCard = (farm: Farm, { mainsLost, left, now }: Situation): Card | null => {
  if (mainsLost === null) return null;
  const since = sinceText(mainsLost.since, now, farm.place.timeZone);
  const { against } = mainsLost;
  return {
    kind: 'mains-lost',
    priority: 'high',
    cause:
      against === null
        ? `The mains have been lost ${since}: the pump has no power.`
        : `The mains contact has read "lost" ${since}, but ${against}: one of the two is wrong.`,
    consequence: wiltText(left(), now, farm.place.timeZone),
    firstAction:
      against === null ? NO_MAINS_FIRST_ACTION : 'Look whether the pump runs, then at the contact.',
  };
};

const weakCard = ({ degraded }: Situation): Card | null =>
  degraded === null
    ? null
    : {
        kind: 'weak-flow',
        priority: 'medium',
        cause: `Weak flood: ${degraded.says}.`,
        consequence: null,
        firstAction: 'Clean the filter, then look for blocked inlets.',
      };

const runsOnCard = (farm: Farm, { runsOn, now }: Situation): Card | null =>
  runsOn === null
    ? null
    : {
        kind: 'pump-runs-on',
        priority: 'high',
        cause: `The pump was switched off, but ${runsOn.why} ${sinceText(runsOn.since, now, farm.place.timeZone)}.`,
        consequence: 'The tank may run dry or over.',
        firstAction: 'Pull the plug of the pump, then look at the relay.',
      };

const tankCard = (farm: Farm, { tank, tankSince, left, now }: Situation): Card | null => {
  if (tank === 'well') return null;
  const since = tankSince === null ? '' : ` ${sinceText(tankSince, now, farm.place.timeZone)}`;
  if (tank === 'low' || tank === 'returning') {
    return {
      kind: 'tank-low',
      priority: 'high',
      cause: `The tank has been low${since}; only ${tank === 'low' ? 'sips' : 'shortened floods'} are given.`,
      consequence: wiltText(left(), now, farm.place.timeZone),
      firstAction: 'Look into the tank. Fill it, or free the float by hand if it hangs.',
    };
  }
  return {
    kind: 'float-suspect',
    priority: 'high',
    cause: `The tank float reads low${since}, but water comes back; shortened floods go on.`,
    consequence: wiltText(left(), now, farm.place.timeZone),
    firstAction: 'Look into the tank and test the float by hand.',
  };
};

const floorCard = ({ waterOnFloor }: Situation): Card | null =>
  waterOnFloor === null
    ? null
    : {
        kind: 'water-on-floor',
        priority: 'high',
        cause: `Water where none should be: ${waterOnFloor}.`,
        consequence: 'Floods are shortened or stopped until it is dry.',
        firstAction: 'Look for a blocked return or a pipe that came off. Keep off wet sockets.',
      };

const shutCard = (farm: Farm, { shutTooLong, keeper, left, now }: Situation): Card | null => {
  if (shutTooLong === null) return null;
  const since = sinceText(shutTooLong.since, now, farm.place.timeZone);
  const consequence = wiltText(left(), now, farm.place.timeZone);
  if (shutTooLong.by === 'board' && keeper === 'keeps') {
    return {
      kind: 'drying-out',
      priority: 'high',
      cause: `Nobody has seen a flood ${since}: ${shutTooLong.reason}, though it should flood by its own table.`,
      consequence: `If not: ${consequence}`,
      firstAction: 'Go and see whether the benches are wet; if not, carry water to them by hand.',
    };
  }
  return {
    kind: shutTooLong.by === 'person' ? 'hold-is-long' : 'drying-out',
    priority: 'high',
    cause: `No flood ${since}: ${shutTooLong.reason}.`,
    consequence,
    firstAction:
      shutTooLong.by === 'person'
        ? 'End the hold when hands are out of the water.'
        : 'Carry water to the benches by hand, then mend the cause.',
  };
};

const airCard = (farm: Farm, { air, airBadSince, now }: Situation): Card | null =>
  airBadSince === null || air.quality === 'good'
    ? null
    : {
        kind: 'no-good-temperature',
        priority: 'low',
        cause: `No good air temperature ${sinceText(airBadSince, now, farm.place.timeZone)}: ${air.why}.`,
        consequence: null,
        firstAction: 'The plan runs at its wet end meanwhile. Look at the air thermometer and its cable.',
      };

const flowCard = (farm: Farm, { flowBad, now }: Situation): Card | null =>
  flowBad === null
    ? null
    : {
        kind: 'flow-sensor-silent',
        priority: 'medium',
        cause: `The return flow sensor is not believed ${sinceText(flowBad.since, now, farm.place.timeZone)}: ${flowBad.why}.`,
        consequence: 'Floods go on, but a missed one may not be noticed.',
        firstAction: 'Look at the sensor and its cable.',
      };

const stuckCard = (farm: Farm, { returnStuckSince, now }: Situation): Card | null =>
  returnStuckSince === null
    ? null
    : {
        kind: 'flow-sensor-stuck',
        priority: 'medium',
        cause: `The return flow sensor shows water ${sinceText(returnStuckSince, now, farm.place.timeZone)}, though the pump rests.`,
        consequence: 'Floods go on, but a missed one may not be noticed.',
        firstAction: 'Look whether water really runs; if not, free or replace the sensor.',
      };

const clockCard = ({ clockSteppedAt }: Situation): Card | null =>
  clockSteppedAt === null
    ? null
    : {
        kind: 'clock-stepped',
        priority: 'medium',
        cause: 'The clock of the host has jumped, and nobody knows which time is right.',
        consequence: 'Until somebody does, the benches get the floods of the hottest part of the day plan.',
        firstAction: 'Look at date and time of the host, set them right, then acknowledge this.',
      };

const boardCard = (farm: Farm, { boardSilent, keeper, left, now }: Situation): Card | null => {
  if (boardSilent === null) return null;
  const since = sinceText(boardSilent.since, now, farm.place.timeZone);
  const silent = `The board has not answered ${since} (${shortened(boardSilent.why)})`;
  const consequence = wiltText(left(), now, farm.place.timeZone);
  return keeper === 'keeps'
    ? {
        kind: 'board-silent',
        priority: 'high',
        cause: `${silent}; its own table should flood, unseen.`,
        consequence: `If not: ${consequence}`,
        firstAction: KEEPER_FIRST_ACTION[farm.deadBoard],
      }
    : {
        kind: 'board-silent',
        priority: 'high',
        cause: `${silent}; no flood can be given.`,
        consequence,
        firstAction: BOARD_FIRST_ACTION[farm.deadBoard],
      };
};

/** The alarms whose condition stands at this moment. */
export const standingCards = (farm: Farm, situation: Situation): readonly Card[] =>
  [
    missedCard(farm, situation),
    mainsCard(farm, situation),
    boardCard(farm, situation),
    runsOnCard(farm, situation),
    tankCard(farm, situation),
    floorCard(situation),
    shutCard(farm, situation),
    weakCard(situation),
    flowCard(farm, situation),
    stuckCard(farm, situation),
    clockCard(situation),
    airCard(farm, situation),
  ].filter((card) => card !== null);

export const holdText = (minutes: number): string => `hold for ${spanText(minutes)}`;
