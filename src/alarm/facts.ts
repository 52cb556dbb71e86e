import { GONE_MINUTES, type TimeLeft } from '../estimate/time-left.ts';
import type { Farm } from '../farm/farm.ts';
import { localClockText } from '../time/local-day.ts';
import { minutesBetween, wallAfterMinutes, type MonotonicMillis, type Now } from '../time/instant.ts';
import type { StrengthRemedy } from '../estimate/dilution.ts';
import type { Reason } from './reason.ts';

/**
 * What an alarm has to tell, in no language: plain data, so that it is kept over a restart and each person is told
 * in his own words.
 */

/** A moment by the clock of the farm, or by its age where that is long or no clock can be believed. */
export type Moment =
  { readonly kind: 'clock'; readonly time: string } | { readonly kind: 'ago'; readonly minutes: number };

/** Which bench may begin to wilt when, on the dry edge of the doubt. */
export type Wilt =
  | { readonly kind: 'not-soon' }
  /** `others`: how many more benches may be wilting; not there where none may. */
  | { readonly kind: 'already'; readonly bench: string; readonly others?: number }
  /** `from` on the clock of the farm; null where none can be believed. */
  | {
      readonly kind: 'ahead';
      readonly bench: string;
      readonly minutes: number;
      readonly from: string | null;
    };

/** A moment to come; `from` on the clock of the farm, null where none can be believed. */
export interface Ahead {
  readonly minutes: number;
  readonly from: string | null;
}

/** Beyond this, "from 14:40" and "since 11:42" would mislead more than they help: nobody knows of which day. */
const SAID_AS_CLOCK_MINUTES = 20 * 60;
const wholeHours = (minutes: number): number => Math.round(minutes / 60) * 60;

export const momentOf = (moment: MonotonicMillis, now: Now, timeZone: string): Moment => {
  const minutes = minutesBetween(moment, now.monotonic);
  if (minutes >= SAID_AS_CLOCK_MINUTES) return { kind: 'ago', minutes: wholeHours(minutes) };
  if (now.wall === 'unknown') return { kind: 'ago', minutes };
  return { kind: 'clock', time: localClockText(wallAfterMinutes(now.wall, -minutes), timeZone) };
};

export const wiltOf = (left: TimeLeft, now: Now, timeZone: string): Wilt => {
  const { bench, others } = left;
  if (bench === null || left.minutes >= SAID_AS_CLOCK_MINUTES) return { kind: 'not-soon' };
  if (left.minutes < GONE_MINUTES)
    return { kind: 'already', bench, ...(others === undefined ? {} : { others }) };
  const minutes = Math.floor(left.minutes);
  const from = now.wall === 'unknown' ? null : localClockText(wallAfterMinutes(now.wall, minutes), timeZone);
  return { kind: 'ahead', bench, minutes, from };
};

/** The same for anything else that is to come; null where it is far off. */
export const aheadOf = (minutesLeft: number, now: Now, timeZone: string): Ahead | null => {
  if (minutesLeft >= SAID_AS_CLOCK_MINUTES) return null;
  const minutes = Math.floor(minutesLeft);
  const from = now.wall === 'unknown' ? null : localClockText(wallAfterMinutes(now.wall, minutes), timeZone);
  return { minutes, from };
};

/** What was seen of a missed flood, the most telling thing first. */
export type MissSeen = 'no-mains' | 'no-contact' | 'no-current' | 'tank-fell' | 'pump-ran' | 'switched-on';

/** Water carried by hand while the pump cannot run: the bench to begin with, and its pace. */
export interface Bucket {
  readonly bench: string;
  readonly litresPerChannel: number;
  /** null: no pace of pours holds this bench, and it gets as many as can be carried. */
  readonly everyMinutes: number | null;
}

/** What each kind of alarm about the shed has to tell, beside the farm. */
export interface ShedFacts {
  'missed-flood': {
    readonly seen: MissSeen;
    /** What little came back; null where it was as good as nothing. */
    readonly trickleLitresPerMinute: number | null;
    readonly since: Moment;
    readonly wilt: Wilt;
    /** Where little is left, or the mains are gone; null else. */
    readonly bucket: Bucket | null;
  };
  /** `against` is what says that they are there. */
  'mains-lost': {
    readonly since: Moment;
    readonly against: Reason | null;
    readonly wilt: Wilt;
    readonly bucket: Bucket | null;
  };
  'weak-flow': { readonly why: Reason };
  /** What comes back now and what used to, L/min; the benches of the farm in the order of the walk. */
  'return-lower': {
    readonly litresPerMinute: number;
    readonly usedToBeLitresPerMinute: number;
    readonly benches: readonly string[];
  };
  'pump-runs-on': { readonly why: Reason; readonly since: Moment };
  'tank-low': { readonly since: Moment | null; readonly float: 'low' | 'up-again'; readonly wilt: Wilt };
  'float-suspect': { readonly since: Moment | null; readonly wilt: Wilt };
  /**
   * Litres an hour beyond what plants can drink, null where it is they who drink it and too little is topped up; when it is too low
   * for a whole flood, null when not soon.
   */
  'tank-falls': { readonly beyondLitresPerHour: number | null; readonly low: Ahead | null };
  'tank-full': { readonly litres: number; readonly ofLitres: number };
  'water-on-floor': { readonly where: Reason };
  /** Both at 25 °C; `unreadSince` the probe has given no good reading, null while it does. */
  'strength-off': {
    readonly side: 'strong' | 'weak';
    readonly millisiemensPerCm: number;
    readonly usualMillisiemensPerCm: number;
    readonly unreadSince: Moment | null;
    readonly remedy: StrengthRemedy;
  };
  'hold-is-long': { readonly why: Reason; readonly since: Moment; readonly wilt: Wilt };
  /** `keeps` when a board that is not heard should flood by its own table. */
  'drying-out': {
    readonly why: Reason;
    readonly since: Moment;
    readonly keeper: 'keeps' | 'none';
    readonly wilt: Wilt;
    readonly bucket: Bucket | null;
  };
  'flow-sensor-silent': { readonly why: Reason; readonly since: Moment };
  'flow-sensor-stuck': { readonly since: Moment };
  /** Since when nobody knows which time is right. */
  'clock-stepped': { readonly since: Moment };
  'no-good-temperature': { readonly why: Reason; readonly since: Moment };
  'relay-chatters': { readonly since: Moment };
  'float-unmoved': { readonly days: number };
  'board-silent': {
    readonly why: Reason;
    readonly since: Moment;
    readonly keeper: 'keeps' | 'none';
    readonly deadBoard: Farm['deadBoard'];
    readonly wilt: Wilt;
  };
}

/** What each kind of alarm about the host itself has to tell. */
export interface HostFacts {
  /** The way to people that died first, and the names of the others. */
  'channel-dead': {
    readonly name: string;
    readonly since: Moment;
    readonly why: Reason;
    readonly others: readonly string[];
  };
  'not-recording': { readonly journal: Unrecorded };
  'safe-mode': { readonly why: Reason; readonly restarts: number };
  /** `late` while it may be read yet; `heldMinutes` from the start no flood is given for that. */
  'past-unread': { readonly why: 'late' | 'damaged'; readonly heldMinutes: number };
  'clock-drift': { readonly percent: number; readonly way: 'faster' | 'slower'; readonly since: Moment };
  /** One of so many messages of the board comes spoilt. */
  'line-bad': { readonly oneIn: number; readonly since: Moment };
  'host-hot': { readonly celsius: number; readonly since: Moment };
  /** `renewed` by whom it is started anew for that. */
  'host-large': {
    readonly megabytes: number;
    readonly since: Moment;
    readonly renewed: 'by-itself' | 'by-hand';
  };
  'host-battery': {
    readonly percent: number;
    readonly volts: number | null;
    readonly since: Moment;
  };
}

export type Unrecorded =
  | { readonly kind: 'behind'; readonly entries: number; readonly minutes: number }
  | { readonly kind: 'stopped'; readonly since: Moment; readonly why: Reason; readonly lost: number };

export interface FactsOfKind extends ShedFacts, HostFacts {}

export type ShedKind = keyof ShedFacts;
export type HostKind = keyof HostFacts;
export type FactKind = keyof FactsOfKind;
/** Of single parts, of the shed or of the host, that fail, or may have failed, before the water does. */
export type PartKind =
  | 'tank-falls'
  | 'tank-full'
  | 'strength-off'
  | 'return-lower'
  | 'relay-chatters'
  | 'float-unmoved'
  | 'line-bad'
  | 'host-hot'
  | 'host-large'
  | 'host-battery';

/** The facts of an alarm of some kind; `farm` is its name. */
export type FactsOf<Kind extends FactKind> = {
  [One in Kind]: { readonly kind: One; readonly farm: string } & FactsOfKind[One];
}[Kind];
export type Facts = FactsOf<FactKind>;
