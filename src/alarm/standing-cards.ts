import type { BucketRound } from '../estimate/bucket-round.ts';
import type { Farm } from '../farm/farm.ts';
import type { MonotonicMillis } from '../time/instant.ts';
import { cardOf, type Card } from './card.ts';
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
import { languageOf } from './language/languages.ts';
import { missSeen } from './missed-flood.ts';
import { priorityOf } from './priority.ts';
import { reasonOf } from './reason.ts';
import type { Situation } from './situation.ts';

/** What every card takes from the moment: the farm, its clock, and the time left. */
interface Told {
  readonly farm: Farm;
  readonly since: (moment: MonotonicMillis) => Moment;
  readonly wilt: () => Wilt;
  readonly bucket: () => Bucket | null;
  readonly ahead: (minutes: number) => Ahead | null;
}

type FactMaker<Kind extends ShedKind> = (situation: Situation, told: Told) => FactsOf<Kind> | null;

/** A filter is found and cleaned in less; with less than this left water is carried by hand meanwhile. */
const BY_HAND_MINUTES = 30;

const missedFacts: FactMaker<'missed-flood'> = (
  { missed, lastWaterAt, left },
  { farm, since, wilt, bucket },
) => {
  if (missed === null) return null;
  const seen = missSeen(missed);
  return {
    kind: 'missed-flood',
    farm: farm.farm,
    seen,
    trickleLitresPerMinute: missed.trickleLitresPerMinute,
    since: since(lastWaterAt ?? missed.startedAt),
    wilt: wilt(),
    bucket: seen === 'no-mains' || left().minutes < BY_HAND_MINUTES ? bucket() : null,
  };
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
  return { kind: 'tank-low', ...both, float: tank === 'low' ? 'low' : 'up-again' };
};

const fallFacts: FactMaker<'tank-falls'> = ({ tankFall }, { farm, ahead }) =>
  tankFall === null
    ? null
    : {
        kind: 'tank-falls',
        farm: farm.farm,
        beyondLitresPerHour:
          tankFall.beyondLitresPerHour === null ? null : Math.round(tankFall.beyondLitresPerHour),
        low: ahead(tankFall.lowInMinutes),
      };

const fullFacts: FactMaker<'tank-full'> = ({ brimfulLitres }, { farm }) =>
  brimfulLitres === null
    ? null
    : { kind: 'tank-full', farm: farm.farm, litres: Math.round(brimfulLitres), ofLitres: farm.tank.litres };

const floorFacts: FactMaker<'water-on-floor'> = ({ waterOnFloor }, { farm }) =>
  waterOnFloor === null ? null : { kind: 'water-on-floor', farm: farm.farm, where: reasonOf(waterOnFloor) };

const strengthFacts: FactMaker<'strength-off'> = ({ strengthOff }, { farm, since }) =>
  strengthOff === null
    ? null
    : {
        kind: 'strength-off',
        farm: farm.farm,
        side: strengthOff.side,
        millisiemensPerCm: strengthOff.millisiemensPerCm,
        usualMillisiemensPerCm: farm.tank.strengthMillisiemensPerCm,
        unreadSince: strengthOff.unreadSince === null ? null : since(strengthOff.unreadSince),
        remedy: strengthOff.remedy,
      };

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

const lowerFacts: FactMaker<'return-lower'> = ({ returnLower }, { farm }) =>
  returnLower === null
    ? null
    : {
        kind: 'return-lower',
        farm: farm.farm,
        litresPerMinute: returnLower.litresPerMinute,
        usedToBeLitresPerMinute: returnLower.bestLitresPerMinute,
        benches: farm.benches.map(({ name }) => name),
      };

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

const clockFacts: FactMaker<'clock-stepped'> = ({ clockDoubtedAt }, { farm, since }) =>
  clockDoubtedAt === null ? null : { kind: 'clock-stepped', farm: farm.farm, since: since(clockDoubtedAt) };

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
  strengthFacts,
  lowerFacts,
  flowFacts,
  stuckFacts,
  chatterFacts,
  clockFacts,
  airFacts,
  unmovedFacts,
];

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
    .map((facts) => cardOf(facts, priorityOf(facts, situation, farm), languageOf(farm)));
};
