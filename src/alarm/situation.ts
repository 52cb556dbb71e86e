import type { BucketRound } from '../estimate/bucket-round.ts';
import type { StrengthRemedy } from '../estimate/dilution.ts';
import type { TankFall } from '../estimate/tank-course.ts';
import type { TimeLeft } from '../estimate/time-left.ts';
import type { Reading } from '../sense/reading.ts';
import type { MonotonicMillis, Now } from '../time/instant.ts';
import type { HeldAgainst } from '../verify/return-plateau.ts';
import type { MissClue, Verdict } from '../verify/verdict.ts';

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
  /** What comes back, where it is lower than it used to be. */
  readonly returnLower: HeldAgainst | null;
  readonly lastWaterAt: MonotonicMillis | null;
  /** Why the pump seems to run though it was asked off, and since when. */
  readonly runsOn: { readonly why: string; readonly since: MonotonicMillis } | null;
  /** Since when the mains of the pump have been lost, and what speaks against it. */
  readonly mainsLost: { readonly since: MonotonicMillis; readonly against: string | null } | null;
  readonly tank: 'well' | 'low' | 'float-suspect' | 'returning';
  readonly tankSince: MonotonicMillis | null;
  /** The tank falls faster than plants can drink, or they drink it too low and too little is topped up. */
  readonly tankFall: TankFall | null;
  /** What is in a tank that is full to its brim and stays so. */
  readonly brimfulLitres: number | null;
  readonly waterOnFloor: string | null;
  /** The solution is outside the band of its strength; the last good reading at 25 °C, and since when that is none. */
  readonly strengthOff: {
    readonly side: 'strong' | 'weak';
    readonly millisiemensPerCm: number;
    readonly unreadSince: MonotonicMillis | null;
    readonly remedy: StrengthRemedy;
  } | null;
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
  readonly clockDoubtedAt: MonotonicMillis | null;
  /** The board has not answered for a while. */
  readonly boardSilent: { readonly since: MonotonicMillis; readonly why: string } | null;
  /** Whether a board that is not heard has a table of its own to flood by. */
  readonly keeper: 'keeps' | 'none';
}
