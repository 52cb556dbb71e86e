import { cardText, type Card } from '../../../src/alarm/card.ts';
import type { ShedKind } from '../../../src/alarm/facts.ts';
import type { Situation } from '../../../src/alarm/situation.ts';
import { standingCards } from '../../../src/alarm/standing-cards.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import {
  afterMinutes,
  monotonicMillis,
  wallMillis,
  type MonotonicMillis,
} from '../../../src/time/instant.ts';
import type { MissClue } from '../../../src/verify/verdict.ts';
import { exampleFarm } from '../../support/farm.ts';

/** 13:57 in Lisbon, on a monotonic clock that knows nothing of it. */
export const NOW = {
  monotonic: monotonicMillis(500 * 60_000),
  wall: wallMillis(Date.parse('2026-07-14T12:57:00Z')),
} as const;
export const TIMELESS = { ...NOW, wall: 'unknown' } as const;
export const minutesAgo = (minutes: number): MonotonicMillis => afterMinutes(NOW.monotonic, -minutes);

export const ROUND = {
  bench: 'Bench 4',
  channels: 12,
  litresPerChannel: 3.5,
  everyMinutes: 15,
  minutesFromFull: 60,
} as const;

export const WELL: Situation = {
  now: NOW,
  left: () => ({ minutes: 43, bench: 'Bench 2' }),
  bucket: () => ROUND,
  missed: null,
  degraded: null,
  lastWaterAt: minutesAgo(15),
  runsOn: null,
  mainsLost: null,
  keeper: 'none',
  tank: 'well',
  tankSince: null,
  tankFall: null,
  brimfulLitres: null,
  strengthOff: null,
  waterOnFloor: null,
  shutTooLong: null,
  air: { quality: 'good', value: 34, ageSeconds: 0 },
  airBadSince: null,
  flowBad: null,
  returnStuckSince: null,
  relayChattersSince: null,
  floatUnmovedDays: null,
  returnLower: null,
  clockDoubtedAt: null,
  boardSilent: null,
};

export const CLUE: MissClue = {
  contact: 'seen',
  current: 'seen',
  mains: 'unknown',
  tankFell: 'unknown',
  trickleLitresPerMinute: null,
  stoppedAt: null,
  startedAt: minutesAgo(11),
  deadline: NOW.monotonic,
  retries: 2,
};

/** For each kind of alarm, a situation in which it stands alone. */
export const STANDING: Readonly<Record<ShedKind, Partial<Situation>>> = {
  'missed-flood': { missed: CLUE },
  'weak-flow': { degraded: { kind: 'degraded', why: 'weak', says: 'return flow 13 L/min, usually 40' } },
  'mains-lost': { mainsLost: { since: minutesAgo(2), against: null } },
  'pump-runs-on': { runsOn: { why: 'it has drawn current', since: minutesAgo(2) } },
  'tank-low': { tank: 'low', tankSince: minutesAgo(5) },
  'float-suspect': { tank: 'float-suspect', tankSince: minutesAgo(30) },
  'tank-falls': { tankFall: { beyondLitresPerHour: 47.6, lowInMinutes: 191, isSoonLow: true } },
  'tank-full': { brimfulLitres: 597.6 },
  'strength-off': {
    strengthOff: {
      side: 'strong',
      millisiemensPerCm: 2.6,
      unreadSince: null,
      remedy: { kind: 'swap-water', litres: 195.7 },
    },
  },
  'water-on-floor': { waterOnFloor: 'leak sensor and overflow float are both wet' },
  'hold-is-long': { shutTooLong: { reason: 'held by Ana', by: 'person', since: minutesAgo(20) } },
  'board-silent': { boardSilent: { since: minutesAgo(1), why: '/dev/ttyUSB0: unplugged' } },
  'drying-out': {
    shutTooLong: { reason: 'the tank float reads low', by: 'water', since: minutesAgo(20) },
  },
  'flow-sensor-silent': { flowBad: { since: minutesAgo(10), why: 'it has not spoken' } },
  'flow-sensor-stuck': { returnStuckSince: minutesAgo(1) },
  'relay-chatters': { relayChattersSince: minutesAgo(2) },
  'return-lower': {
    returnLower: { litresPerMinute: 32.6, takenLitresPerMinute: 0.5, bestLitresPerMinute: 41.1 },
  },
  'float-unmoved': { floatUnmovedDays: 30 },
  'clock-stepped': { clockDoubtedAt: minutesAgo(1) },
  'no-good-temperature': {
    airBadSince: minutesAgo(12),
    air: { quality: 'stale', value: 34, ageSeconds: 1320, why: 'last reading is 1320 s old' },
  },
};

export const cardsIn = (situation: Partial<Situation>, farm: Farm = exampleFarm): readonly Card[] =>
  standingCards(farm, { ...WELL, ...situation });

/** The text of the one card that stands. */
export const textIn = (situation: Partial<Situation>, farm?: Farm): string => {
  const cards = cardsIn(situation, farm);
  if (cards.length !== 1) throw new Error(`${cards.length} cards stand`);
  return cardText(cards[0]!);
};
