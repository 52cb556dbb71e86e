import { minutesBetween, monotonicMillis, type MonotonicMillis } from '../time/instant.ts';
import { itemAt } from '../units/assertion.ts';
import { isActive, type Alarms } from './alarm.ts';
import { callMessage, callText, type CallFacts } from './call-words.ts';
import type { AlarmKind, Card, Priority } from './card.ts';
import { chatters } from './deadband.ts';
import { reminds, type Pace } from './escalation.ts';
import { EXPLAINS, followers } from './grouping.ts';
import type { Language } from './language/language.ts';
import { STAKES, type Stake } from './stakes.ts';
import { calledNow, voicesAfter, type Voice } from './voices.ts';

/** Something to carry to people. Who is the first of the rota, and by which way, is the herald's to know. */
export interface Call {
  readonly kind: 'raised' | 'again' | 'escalated' | 'returned' | 'all-well';
  readonly alarm: AlarmKind | null;
  readonly priority: Priority;
  /** Whole, in the farm's language. */
  readonly text: string;
  /** The same for a telephone, in at most 160 letters of 3GPP TS 23.038. */
  readonly message: string;
  /** The card behind it, for whoever must shorten it; null when all is well. */
  readonly card: Card | null;
  /** Alarms that it speaks for besides its own, in the order in which they came. */
  readonly also: readonly AlarmKind[];
  /** Who has acknowledged it; null where nobody has. */
  readonly seenBy: string | null;
  /** 0 is the first person of the rota, each escalation one more. */
  readonly rung: number;
  readonly minutesLeft: number | null;
}

/** What the calls carry from one moment to the next; plain data, bounded. */
export interface CallsKept {
  readonly voices: readonly Voice[];
  /** The calls of the last ten minutes. */
  readonly recent: readonly { readonly at: MonotonicMillis; readonly stake: Stake }[];
}

export const NO_CALLS: CallsKept = { voices: [], recent: [] };

/** More calls than this in ten minutes nobody reads: from there on all of one stake are one message (faults.md, row 58). */
export const STORM_CALLS = 10;
export const STORM_MINUTES = 10;
/** A bound on what is remembered: calls on water are never held back, and may be more. */
const RECENT_MAX = 64;

export interface CallsAsked extends Pace {
  readonly alarms: Alarms;
  readonly kept: CallsKept;
  readonly now: MonotonicMillis;
  readonly language: Language;
  /** Neither a low alarm nor the renewed word of what does not press wakes anybody. */
  readonly hour: () => 'night' | 'day';
}

export interface Called {
  readonly kept: CallsKept;
  readonly calls: readonly Call[];
}

const KINDS = { waiting: 'raised', called: 'escalated', seen: 'again', over: 'returned' } as const;

const isOver = ({ phase }: Voice): boolean => phase === 'over';
const isUrgent = (voice: Voice): boolean => voice.card.priority === 'high' && !isOver(voice);

const stakeOf = ({ card }: Voice): Stake => STAKES[card.kind];

/** What can wait for the morning. */
const waitsForDay = ({ card, phase, rung }: Voice): boolean =>
  card.priority === 'low' ||
  (card.priority === 'medium' && (phase === 'seen' || (phase === 'called' && reminds(card, rung))));

/** Voices that speak in one message, the one that leads it first. */
type Bundle = readonly Voice[];

/** In a storm one bundle for each stake: what is urgent leads, and is never held back; the rest waits for its turn. */
const storming = (due: readonly Voice[], recent: CallsKept['recent']): readonly Bundle[] =>
  [...new Set(due.map(stakeOf))].flatMap((stake) => {
    const bundle = due.filter((voice) => stakeOf(voice) === stake);
    const urgent = bundle.filter(isUrgent);
    if (urgent.length === 0 && recent.some((call) => call.stake === stake)) return [];
    const rest = bundle.filter((voice) => !isUrgent(voice));
    return [[...urgent, ...rest.filter((voice) => !isOver(voice)), ...rest.filter(isOver)]];
  });

/** What else stands that a bundle speaks for; after what is over, what it had explained and is not over. */
const alsoStanding = (bundle: Bundle, alarms: Alarms): readonly AlarmKind[] => {
  const lead = itemAt(bundle, 0);
  const kinds = new Set(bundle.filter((voice) => !isOver(voice)).map(({ card }) => card.kind));
  const left = isOver(lead)
    ? alarms.filter((one) => isActive(one) && EXPLAINS[lead.card.kind]?.includes(one.card.kind) === true)
    : alarms.filter(({ card }) => kinds.has(card.kind)).flatMap((one) => followers(alarms, one));
  const also = new Set([...kinds, ...left.map(({ card }) => card.kind)]);
  return [...also].filter((kind) => kind !== lead.card.kind);
};

const callOf = (bundle: Bundle, { alarms, language, minutesLeft, now }: CallsAsked): Call => {
  const lead = itemAt(bundle, 0);
  const { card } = lead;
  const kind = KINDS[lead.phase];
  const also = alsoStanding(bundle, alarms);
  const alarm = alarms.find((one) => one.card.kind === card.kind);
  const first = alarms.find((one) => one.card.kind === card.kind || also.includes(one.card.kind))?.card.kind;
  const facts: CallFacts = {
    kind,
    card,
    also,
    over: bundle
      .slice(1)
      .filter(isOver)
      .map((voice) => voice.card.kind),
    first: first === undefined || first === card.kind || isOver(lead) ? null : first,
    comesAndGoes:
      !isOver(lead) && (lead.wavers || (alarm !== undefined && chatters(alarm.course, now))) ? 'yes' : 'no',
  };
  return {
    kind,
    alarm: card.kind,
    priority: card.priority,
    text: callText(facts, language),
    message: callMessage(facts, language),
    card,
    also,
    seenBy: lead.seenBy,
    rung: isOver(lead) ? Math.max(0, lead.rung) : Math.max(...bundle.map(({ rung }) => rung)) + 1,
    minutesLeft: isOver(lead) ? null : Math.floor(minutesLeft()),
  };
};

/**
 * Who is to be called now: what is new, what nobody has answered, what was answered and still stands, and what is over.
 * An alarm that another one explains has no call of its own while that one stands.
 */
export const callsAfter = (asked: CallsAsked): Called => {
  const { kept, now } = asked;
  if (asked.alarms.length === 0 && kept.voices.length === 0) {
    return { kept: kept.recent.length === 0 ? kept : { ...kept, recent: recentOf(kept, now) }, calls: [] };
  }
  const voices = voicesAfter({ ...asked, voices: kept.voices });
  const recent = recentOf(kept, now);
  const due = voices.filter(
    (voice) =>
      voice.dueAt !== null && voice.dueAt <= now && !(waitsForDay(voice) && asked.hour() === 'night'),
  );
  const isStorm = recent.length + due.length > STORM_CALLS;
  const bundles: readonly Bundle[] = isStorm ? storming(due, recent) : due.map((voice) => [voice]);
  const spoken = new Set(bundles.flat());
  return {
    kept: {
      voices: voices
        .map((voice) => (spoken.has(voice) ? calledNow(voice, asked, now) : voice))
        .filter((voice) => voice !== null),
      recent: [...recent, ...bundles.map((bundle) => ({ at: now, stake: stakeOf(itemAt(bundle, 0)) }))].slice(
        -RECENT_MAX,
      ),
    },
    calls: bundles.map((bundle) => callOf(bundle, asked)),
  };
};

const recentOf = ({ recent }: CallsKept, now: MonotonicMillis): CallsKept['recent'] =>
  recent.filter(({ at }) => minutesBetween(at, now) < STORM_MINUTES);

/** The next moment at which somebody is to be called if nothing changes; null when nobody is. */
export const nextCallAt = ({ voices }: CallsKept, now: MonotonicMillis): MonotonicMillis | null => {
  const moments = voices.flatMap(({ dueAt }) => (dueAt !== null && dueAt > now ? [dueAt] : []));
  return moments.length === 0 ? null : monotonicMillis(Math.min(...moments));
};
