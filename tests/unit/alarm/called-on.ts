import {
  acknowledged,
  afterConditions,
  nextAlarmChange,
  shelvedUntil,
  type Alarms,
} from '../../../src/alarm/alarm.ts';
import { callsAfter, NO_CALLS, nextCallAt, type Call, type CallsKept } from '../../../src/alarm/calls.ts';
import type { AlarmKind, Card } from '../../../src/alarm/card.ts';
import { seenNow } from '../../../src/alarm/voices.ts';
import { stillSeenBy } from '../../../src/alarm/wavering.ts';
import { LANGUAGES } from '../../../src/alarm/language/languages.ts';
import { afterMinutes, monotonicMillis, type MonotonicMillis } from '../../../src/time/instant.ts';
import { cardOf } from './made-alarms.ts';

/** A call with the minute at which it was made. */
export type CallMade = Call & { readonly at: number };

/** Alarms and calls that are looked at whenever they ask for it, and at least every 5 min, as the controller does. */
export interface CalledOn {
  readonly stands: (...kinds: readonly (AlarmKind | Card)[]) => void;
  /** What stands from now on; nobody is called before the next look. */
  readonly acknowledge: (kind: AlarmKind) => void;
  readonly shelve: (kind: AlarmKind, minutes: number) => void;
  readonly hour: (hour: 'night' | 'day') => void;
  /** Minutes left from now on if nothing else is said; they run down by themselves. */
  readonly left: (minutes: number) => void;
  /** Every bench is below its wilt floor from now on. */
  readonly lost: () => void;
  /** Looks now, and on until so many minutes from the start. */
  readonly until: (minutes: number) => void;
  readonly calls: () => readonly CallMade[];
  readonly alarms: () => Alarms;
  readonly kept: () => CallsKept;
  readonly minutesLeft: () => number;
  readonly now: () => number;
}

const QUIET_MINUTES = 5;

export const calledOn = (): CalledOn => {
  let at = 0;
  let alarms: Alarms = [];
  let kept = NO_CALLS;
  let cards: readonly Card[] = [];
  let dryAt = 24 * 60;
  let hour: 'night' | 'day' = 'day';
  let lost = false;
  const calls: CallMade[] = [];
  const now = (): MonotonicMillis => monotonicMillis(at * 60_000);
  const minutesLeft = (): number => Math.max(0, dryAt - at);
  const look = (): void => {
    const isSeen = (card: Card): boolean => stillSeenBy(kept.voices, card, minutesLeft, now()) !== null;
    alarms = afterConditions(alarms, cards, now(), new Set(), isSeen).alarms;
    const after = callsAfter({
      alarms,
      kept,
      now: now(),
      minutesLeft,
      isLost: () => lost,
      language: LANGUAGES.en,
      hour: () => hour,
    });
    kept = after.kept;
    calls.push(...after.calls.map((call) => ({ ...call, at })));
  };
  const next = (): number => {
    const asked = [nextAlarmChange(alarms), nextCallAt(kept, now())].filter((moment) => moment !== null);
    const soonest = Math.min(...asked, afterMinutes(now(), QUIET_MINUTES));
    // The controller calls itself at most once a second.
    return Math.max(soonest / 60_000, at + 1 / 60);
  };
  return {
    stands: (...kinds) => {
      cards = kinds.map((one) => (typeof one === 'string' ? cardOf(one) : one));
    },
    acknowledge: (kind) => {
      const { changes, alarms: after } = acknowledged(alarms, kind, 'Ana', now());
      alarms = after;
      if (changes.length > 0) kept = { ...kept, voices: seenNow(kept.voices, kind, 'Ana') };
    },
    shelve: (kind, minutes) => {
      ({ alarms } = shelvedUntil(alarms, kind, { who: 'Ana', until: afterMinutes(now(), minutes) }, now()));
    },
    hour: (is) => {
      hour = is;
    },
    left: (minutes) => {
      dryAt = at + minutes;
    },
    lost: () => {
      lost = true;
    },
    until: (minutes) => {
      look();
      for (let to = next(); to < minutes; to = next()) {
        at = to;
        look();
      }
      at = Math.max(at, minutes);
      look();
    },
    calls: () => calls,
    alarms: () => alarms,
    kept: () => kept,
    minutesLeft,
    now: () => at,
  };
};

/** `raised mains-lost 0 at 2.5` */
export const callWords = ({ kind, alarm, rung, at }: CallMade): string =>
  `${kind} ${alarm ?? '-'} ${rung} at ${Math.round(at * 100) / 100}`;
