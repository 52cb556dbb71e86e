import type { Farm } from '../farm/farm.ts';
import type { Seen } from '../sense/seen.ts';
import { minutesBetween, type MonotonicMillis } from '../time/instant.ts';
import { deadlineOf, plateauFlow, type Flood } from './flood.ts';
import { farmLitresPerMinute } from './sighting.ts';
import type { MissClue, Verdict } from './verdict.ts';

/** Of the minutes in which water could have been seen, it must be seen in this share. */
const WATER_SHARE_MIN = 0.6;
/** Below this share of the usual return a flood is weak. */
const WEAK_SHARE = 0.7;
/** The flow of shorter floods says nothing; */
const TELLING_MINUTES = 10;
/** nor does that of one shorter than so many lags: until floods have taught how slow the channels are they may be as slow as any. */
const TELLING_LAGS = 2;
/** A tank that gave water falls by at least this share of what the pump should have moved in ten minutes. */
const DIP_SHARE = 0.2;

/** Whether the tank fell by what the pump should have taken from it. */
export const tankFell = (farm: Farm, flood: Flood): Seen => {
  if (flood.tankAtStart === null || flood.tankLowest === null) return 'unknown';
  const expected = farmLitresPerMinute(farm) * Math.min(flood.minutes, TELLING_MINUTES) * DIP_SHARE;
  return flood.tankAtStart - flood.tankLowest >= expected ? 'seen' : 'not-seen';
};

/** Of so much of a flood the level must have been read for the tank to deny it. */
const LEVEL_READ_SHARE = 0.8;

/** Whether the tank, which has told of floods before and of this one alone can tell, denies so far that it gives water. */
export const tankDenies = (farm: Farm, flood: Flood): boolean =>
  flood.tankTells === true &&
  flood.readMinutes === 0 &&
  flood.minutes >= TELLING_MINUTES &&
  flood.levelMinutes >= LEVEL_READ_SHARE * minutesBetween(flood.startedAt, flood.lookedAt) &&
  tankFell(farm, flood) === 'not-seen';

/** Below this share of the usual return it is what the flood before left in the channels. */
const TRICKLE_SHARE = 0.1;

const trickle = ({ endLitresPerMinute: flow }: Flood, usualLitresPerMinute: number): number | null =>
  flow !== null && flow >= TRICKLE_SHARE * usualLitresPerMinute ? flow : null;

const clueOf = (farm: Farm, flood: Flood, usualLitresPerMinute: number): MissClue => ({
  contact: flood.contact,
  current: flood.current,
  mains: flood.mains,
  tankFell: tankFell(farm, flood),
  trickleLitresPerMinute: trickle(flood, usualLitresPerMinute),
  startedAt: flood.startedAt,
  stoppedAt: flood.goneSince,
  deadline: deadlineOf(farm, flood),
  retries: flood.retries,
});

const retried = ({ retries }: Flood): string => (retries > 0 ? `, after ${retries} retries` : '');

/** What is said of one over which the tank did not fall: by its deadline, or by its end where that comes before. */
export const missedByTank = (farm: Farm, flood: Flood, usualLitresPerMinute: number): Verdict => {
  const minutes = minutesBetween(flood.startedAt, flood.lookedAt).toFixed(0);
  return {
    kind: 'missed',
    says: `the tank did not fall in ${minutes} min${retried(flood)}`,
    clue: { ...clueOf(farm, flood, usualLitresPerMinute), deadline: flood.lookedAt },
  };
};

const missedWords = ({ startedAt, goneSince, lookedAt }: Flood): string => {
  const minutes = Math.round(minutesBetween(goneSince ?? startedAt, lookedAt));
  if (goneSince === null) return `no water came back in ${minutes} min`;
  const until = Math.round(minutesBetween(startedAt, goneSince));
  return `the water stopped after ${until} min and did not come back in ${minutes} min`;
};

/** What is said of one of which no try gave water, or none went on giving it. */
export const missed = (farm: Farm, flood: Flood, usualLitresPerMinute: number): Verdict => ({
  kind: 'missed',
  says: `${missedWords(flood)} and ${flood.retries} retries`,
  clue: clueOf(farm, flood, usualLitresPerMinute),
});

const uncutClosing = (farm: Farm, flood: Flood, usualLitresPerMinute: number): Verdict => {
  const minutes = flood.minutes.toFixed(0);
  const again = retried(flood);
  if (flood.waterFirstAt !== null) {
    const lag = minutesBetween(flood.attemptAt, flood.waterFirstAt);
    const late = flood.unwatchedUntil !== null && flood.unwatchedUntil <= flood.waterFirstAt;
    const could = Math.max(0.5, flood.readMinutes - (late ? flood.lagMinutes : lag));
    if (flood.waterMinutes < WATER_SHARE_MIN * could) {
      const says = `water came back for only ${flood.waterMinutes.toFixed(0)} of ${minutes} min${again}`;
      return { kind: 'degraded', says, why: 'cut-short' };
    }
    // One reading alone may be wrong by a tenth.
    const flow = plateauFlow(flood.plateau) ?? flood.endLitresPerMinute;
    const tells = flood.minutes >= Math.max(TELLING_MINUTES, TELLING_LAGS * flood.lagMinutes);
    if (flow !== null && tells && flow < WEAK_SHARE * usualLitresPerMinute) {
      const says = `return flow ${flow.toFixed(0)} L/min, usually ${usualLitresPerMinute.toFixed(0)}${again}`;
      return { kind: 'degraded', says, why: 'weak' };
    }
    // When it came back unseen nobody knows how long it took.
    const says = late
      ? 'water was back when the board was heard again'
      : `water back after ${lag.toFixed(1)} min`;
    return { kind: 'confirmed', says: `${says}${again}` };
  }
  if (tankFell(farm, flood) === 'seen') return { kind: 'confirmed', says: `the tank gave its water${again}` };
  if (tankDenies(farm, flood)) return missedByTank(farm, flood, usualLitresPerMinute);
  if (flood.current === 'seen') {
    return { kind: 'unproven', says: 'the pump drew current; nothing that reads can see the water' };
  }
  if (flood.contact === 'seen') {
    return { kind: 'unproven', says: 'the relay closed; nothing that reads can see the water' };
  }
  return { kind: 'unproven', says: 'nothing that reads can tell whether water flowed' };
};

const cutWords = (flood: Flood, { ofMinutes, why }: NonNullable<Flood['cut']>): string =>
  `stopped after ${flood.minutes.toFixed(0)} of ${ofMinutes.toFixed(0)} min: ${why}`;

/** The verdict of a flood whose time is over and which did not fail; one that was cut is no whole one, whatever it gave, and none to judge a filter by. */
export const closing = (farm: Farm, flood: Flood, usualLitresPerMinute: number): Verdict => {
  const verdict = uncutClosing(farm, flood, usualLitresPerMinute);
  if (flood.cut === undefined) return verdict;
  const says = `${cutWords(flood, flood.cut)}; ${verdict.says}`;
  const stops = verdict.kind === 'confirmed' || (verdict.kind === 'degraded' && verdict.why === 'weak');
  return stops ? { kind: 'degraded', says, why: 'stopped' } : { ...verdict, says };
};

/**
 * A flood that was stopped by an order or an interlock before its end. With at least half of its minutes of
 * water it counts as a weak one, else as withheld.
 */
export const stopped = (flood: Flood, why: string, now: MonotonicMillis): Verdict => {
  const ran = minutesBetween(flood.startedAt, now);
  const says = `stopped after ${ran.toFixed(0)} of ${flood.minutes.toFixed(0)} min: ${why}`;
  if (flood.waterMinutes >= flood.minutes / 2) return { kind: 'degraded', says, why: 'stopped' };
  return { kind: 'withheld', says };
};
