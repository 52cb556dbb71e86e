import type { Farm } from '../farm/farm.ts';
import type { BucketRound } from '../estimate/bucket-round.ts';
import type { TankFall } from '../estimate/tank-trend.ts';
import type { TimeLeft } from '../estimate/time-left.ts';
import type { Reading } from '../sense/reading.ts';
import { minutesBetween, type MonotonicMillis, type Now } from '../time/instant.ts';
import type { MissClue, Verdict } from '../verify/verdict.ts';
import { cardOf, type Card, type Priority } from './card.ts';
import {
  aheadOf,
  momentOf,
  wiltOf,
  type Ahead,
  type Bucket,
  type FactsOf,
  type Moment,
  type ShedKind,
  type Wilt,
} from './facts.ts';
import { isByHand } from './language/by-hand.ts';
import { languageOf } from './language/languages.ts';
import { missSeen } from './missed-flood.ts';
import { reasonOf } from './reason.ts';
import { spanText } from './words.ts';

/** Everything an alarm may hang on at one moment, as facts. */
export interface Situation {
  readonly now: Now;
  /** Worked out only when a card needs it. */
  readonly left: () => TimeLeft;
  /** Water by hand: the bench to begin with; null where nothing is planted. Worked out only when a card needs it. */
  readonly bucket: () => BucketRound | null;
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
  /** The tank falls faster than plants can drink. */
  readonly tankFall: TankFall | null;
  /** What is in a tank that is full to its brim and stays so. */
  readonly brimfulLitres: number | null;
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
  /** Since when the contact of the relay has changed more often than any pump is asked to. */
  readonly relayChattersSince: MonotonicMillis | null;
  /** For how many days the tank float has not moved, where that is worth a hand test. */
  readonly floatUnmovedDays: number | null;
  readonly clockSteppedAt: MonotonicMillis | null;
  /** The board has not answered for a while. */
  readonly boardSilent: { readonly since: MonotonicMillis; readonly why: string } | null;
  /** Whether a board that is not heard has a table of its own to flood by. */
  readonly keeper: 'keeps' | 'none';
}

/** What every card takes from the moment: the farm, its clock, and the time left. */
interface Told {
  readonly farm: Farm;
  readonly since: (moment: MonotonicMillis) => Moment;
  readonly wilt: () => Wilt;
  readonly bucket: () => Bucket | null;
  readonly ahead: (minutes: number) => Ahead | null;
}

type FactMaker<Kind extends ShedKind> = (situation: Situation, told: Told) => FactsOf<Kind> | null;

const missedFacts: FactMaker<'missed-flood'> = ({ missed, lastWaterAt }, { farm, since, wilt }) =>
  missed === null
    ? null
    : {
        kind: 'missed-flood',
        farm: farm.farm,
        seen: missSeen(missed),
        trickleLitresPerMinute: missed.trickleLitresPerMinute,
        since: since(lastWaterAt ?? missed.startedAt),
        wilt: wilt(),
      };

const mainsFacts: FactMaker<'mains-lost'> = ({ mainsLost }, { farm, since, wilt, bucket }) =>
  mainsLost === null
    ? null
    : {
        kind: 'mains-lost',
        farm: farm.farm,
        since: since(mainsLost.since),
        against: mainsLost.against === null ? null : reasonOf(mainsLost.against),
        wilt: wilt(),
        // A pump that seems to run is looked at first.
        bucket: mainsLost.against === null ? bucket() : null,
      };

const boardFacts: FactMaker<'board-silent'> = ({ boardSilent, keeper }, { farm, since, wilt }) =>
  boardSilent === null
    ? null
    : {
        kind: 'board-silent',
        farm: farm.farm,
        why: reasonOf(boardSilent.why),
        since: since(boardSilent.since),
        keeper,
        deadBoard: farm.deadBoard,
        wilt: wilt(),
      };

const runsOnFacts: FactMaker<'pump-runs-on'> = ({ runsOn }, { farm, since }) =>
  runsOn === null
    ? null
    : { kind: 'pump-runs-on', farm: farm.farm, why: reasonOf(runsOn.why), since: since(runsOn.since) };

const tankFacts: FactMaker<'tank-low' | 'float-suspect'> = ({ tank, tankSince }, { farm, since, wilt }) => {
  if (tank === 'well') return null;
  const both = { farm: farm.farm, since: tankSince === null ? null : since(tankSince), wilt: wilt() };
  if (tank === 'float-suspect') return { kind: 'float-suspect', ...both };
  return { kind: 'tank-low', ...both, gives: tank === 'low' ? 'sips' : 'shortened' };
};

const fallFacts: FactMaker<'tank-falls'> = ({ tankFall }, { farm, ahead }) =>
  tankFall === null
    ? null
    : {
        kind: 'tank-falls',
        farm: farm.farm,
        beyondLitresPerHour: Math.round(tankFall.beyondLitresPerHour),
        low: ahead(tankFall.lowInMinutes),
      };

const fullFacts: FactMaker<'tank-full'> = ({ brimfulLitres }, { farm }) =>
  brimfulLitres === null
    ? null
    : { kind: 'tank-full', farm: farm.farm, litres: Math.round(brimfulLitres), ofLitres: farm.tank.litres };

const floorFacts: FactMaker<'water-on-floor'> = ({ waterOnFloor }, { farm }) =>
  waterOnFloor === null ? null : { kind: 'water-on-floor', farm: farm.farm, where: reasonOf(waterOnFloor) };

/** Floods that are stopped by a hold, and by anything else, are two alarms. */
const shutFacts: FactMaker<'hold-is-long' | 'drying-out'> = (
  { shutTooLong: shut, keeper },
  { farm, since, wilt, bucket },
) => {
  if (shut === null) return null;
  const both = { farm: farm.farm, why: reasonOf(shut.reason), since: since(shut.since), wilt: wilt() };
  if (shut.by === 'person') return { kind: 'hold-is-long', ...both };
  return { kind: 'drying-out', ...both, keeper: shut.by === 'board' ? keeper : 'none', bucket: bucket() };
};

const weakFacts: FactMaker<'weak-flow'> = ({ degraded }, { farm }) =>
  degraded === null ? null : { kind: 'weak-flow', farm: farm.farm, why: reasonOf(degraded.says) };

const flowFacts: FactMaker<'flow-sensor-silent'> = ({ flowBad }, { farm, since }) =>
  flowBad === null
    ? null
    : {
        kind: 'flow-sensor-silent',
        farm: farm.farm,
        why: reasonOf(flowBad.why),
        since: since(flowBad.since),
      };

const stuckFacts: FactMaker<'flow-sensor-stuck'> = ({ returnStuckSince }, { farm, since }) =>
  returnStuckSince === null
    ? null
    : { kind: 'flow-sensor-stuck', farm: farm.farm, since: since(returnStuckSince) };

const chatterFacts: FactMaker<'relay-chatters'> = ({ relayChattersSince }, { farm, since }) =>
  relayChattersSince === null
    ? null
    : { kind: 'relay-chatters', farm: farm.farm, since: since(relayChattersSince) };

const unmovedFacts: FactMaker<'float-unmoved'> = ({ floatUnmovedDays: days }, { farm }) =>
  days === null ? null : { kind: 'float-unmoved', farm: farm.farm, days };

const clockFacts: FactMaker<'clock-stepped'> = ({ clockSteppedAt }, { farm, since }) =>
  clockSteppedAt === null ? null : { kind: 'clock-stepped', farm: farm.farm, since: since(clockSteppedAt) };

const airFacts: FactMaker<'no-good-temperature'> = ({ air, airBadSince }, { farm, since }) =>
  airBadSince === null || air.quality === 'good'
    ? null
    : { kind: 'no-good-temperature', farm: farm.farm, why: reasonOf(air.why), since: since(airBadSince) };

/** In the order in which they are told. */
const MAKERS: readonly ((situation: Situation, told: Told) => FactsOf<ShedKind> | null)[] = [
  missedFacts,
  mainsFacts,
  boardFacts,
  runsOnFacts,
  tankFacts,
  fallFacts,
  fullFacts,
  floorFacts,
  shutFacts,
  weakFacts,
  flowFacts,
  stuckFacts,
  chatterFacts,
  clockFacts,
  airFacts,
  unmovedFacts,
];

/** Water at stake now is high; a blinded eye or a part that fails is medium; what only costs water is low. */
const PRIORITIES: Readonly<Record<ShedKind, Priority>> = {
  'missed-flood': 'high',
  'mains-lost': 'high',
  'board-silent': 'high',
  'pump-runs-on': 'high',
  'tank-low': 'high',
  'float-suspect': 'high',
  'water-on-floor': 'high',
  'hold-is-long': 'high',
  'drying-out': 'high',
  'weak-flow': 'medium',
  'tank-falls': 'medium',
  'flow-sensor-silent': 'medium',
  'flow-sensor-stuck': 'medium',
  'relay-chatters': 'medium',
  'clock-stepped': 'medium',
  'no-good-temperature': 'low',
  'tank-full': 'low',
  'float-unmoved': 'low',
};

const priorityOf = (kind: ShedKind, { tankFall }: Situation): Priority =>
  kind === 'tank-falls' && tankFall?.isSoonLow === true ? 'high' : PRIORITIES[kind];
/** A switch left by hand may be meant; it is called out after a third of the longest that the pump may run. */
const BY_HAND_SHARE = 1 / 3;

const priorityOf = (facts: FactsOf<ShedKind>, { runsOn, now }: Situation, { pump }: Farm): Priority =>
  facts.kind === 'pump-runs-on' &&
  isByHand(facts.why) &&
  runsOn !== null &&
  minutesBetween(runsOn.since, now.monotonic) < BY_HAND_SHARE * pump.longestOnMinutes
    ? 'medium'
    : PRIORITIES[facts.kind];

const bucketOf = (round: BucketRound | null): Bucket | null =>
  round === null
    ? null
    : { bench: round.bench, litresPerChannel: round.litresPerChannel, everyMinutes: round.everyMinutes };

/** The alarms whose condition stands at this moment, in the language of the farm. */
export const standingCards = (farm: Farm, situation: Situation): readonly Card[] => {
  const { now } = situation;
  const { timeZone } = farm.place;
  const told: Told = {
    farm,
    since: (moment) => momentOf(moment, now, timeZone),
    wilt: () => wiltOf(situation.left(), now, timeZone),
    bucket: () => bucketOf(situation.bucket()),
    ahead: (minutes) => aheadOf(minutes, now, timeZone),
  };
  return MAKERS.map((factsOf) => factsOf(situation, told))
    .filter((facts) => facts !== null)
    .map((facts) => cardOf(facts, priorityOf(facts.kind, situation), languageOf(farm)));
    .map((facts) => cardOf(facts, priorityOf(facts, situation, farm), languageOf(farm)));
};

export const holdText = (minutes: number): string => `hold for ${spanText(minutes)}`;
