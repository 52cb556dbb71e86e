import type { Alarms } from '../alarm/alarm.ts';
import type { CallsKept } from '../alarm/calls.ts';
import { holdText } from '../alarm/words.ts';
import { held, holdsOf, PAST_UNREAD_MINUTES, withHold, withoutHold, type Orders } from '../command/orders.ts';
import { courseAcross } from '../estimate/tank-course.ts';
import type { Farm } from '../farm/farm.ts';
import type { Happening } from '../journal/entry.ts';
import { asSet, asUnset, tellsWhatSet, type ClockTrust, type KeptTrust } from '../time/clock-trust.ts';
import { afterMinutes, minutesBetween, monotonicMillis } from '../time/instant.ts';
import { ordered } from './ordered.ts';
import { resumed, type Away, type Boot, type KeptState } from './resume.ts';
import { isHeardKeeper, type ControllerState, type Earlier, type Memory } from './state.ts';
import { turnedTo, type Turn } from './turn.ts';

/** What became of what an earlier host kept, where it was not there at the start. */
export type Past =
  /** It may come yet. */
  | { readonly kind: 'awaited' }
  /** It was there, and cannot be read. */
  | { readonly kind: 'lost' }
  /** It has come. */
  | { readonly kind: 'read'; readonly kept: KeptState; readonly away: Away; readonly boot: Boot }
  /** It has come, and nothing had been kept. */
  | { readonly kind: 'none' };

/** Who holds the pump then. */
const HOST = 'the host';

const WHY = {
  awaited: 'what was known before this start has not been read yet, and a person may hold the pump',
  lost: 'what was known before this start cannot be read, and a person may have held the pump',
} as const;

/** The host's own hold: it stands beside those of people, and takes none away. */
const waited = (turn: Turn, kind: keyof typeof WHY): Turn => {
  const { orders } = turn.state;
  const now = turn.now.monotonic;
  const ours = holdsOf(orders).find(({ who }) => who === HOST);
  if (ours !== undefined && ours.until >= afterMinutes(now, PAST_UNREAD_MINUTES)) return turn;
  const says = `${holdText(PAST_UNREAD_MINUTES)}: ${WHY[kind]}`;
  const orderedNow = held(orders, HOST, PAST_UNREAD_MINUTES, now);
  return ordered(turn, orderedNow, { kind: 'order', order: 'hold', who: HOST, says });
};

/** Ends the host's own hold, and no other. */
const waitedEnough = (turn: Turn): Turn => {
  const { orders } = turn.state;
  if (!holdsOf(orders).some(({ who }) => who === HOST)) return turn;
  const says = 'hold ended: what was known before has been read, and nobody held the pump';
  return ordered(turn, withoutHold(orders, HOST), { kind: 'order', order: 'release', who: HOST, says });
};

/** People's holds from before stand beside those of now: hands may be in the water. */
const recalledHolds = (turn: Turn, before: Orders): Turn => {
  const known = holdsOf(turn.state.orders);
  const news = holdsOf(before).filter(
    (hold) => hold.who !== HOST && !known.some(({ who, until }) => who === hold.who && until >= hold.until),
  );
  if (news.length === 0) return waitedEnough(turn);
  const after = news.reduce(withHold, withoutHold(turn.state.orders, HOST));
  return ordered(
    turn,
    after,
    ...news.map(({ who, until }) => ({
      kind: 'order' as const,
      order: 'hold' as const,
      who,
      says: `${holdText(minutesBetween(turn.now.monotonic, until))}, as it stands in the book`,
    })),
  );
};

const bothAlarms = (before: Alarms, ours: Alarms): Alarms => [
  ...before,
  ...ours.filter(({ card }) => !before.some((one) => one.card.kind === card.kind)),
];

const bothCalls = (before: CallsKept, ours: CallsKept): CallsKept => ({
  voices: [
    ...before.voices,
    ...ours.voices.filter(({ card }) => !before.voices.some((one) => one.card.kind === card.kind)),
  ],
  recent: [...before.recent, ...ours.recent],
});

/** A stock board has been told off already: its pump did not run by the old word after that. */
const earlierUntilToldOff = (
  earlier: Earlier | null,
  { guard, toldOff }: ControllerState,
): Earlier | null => {
  const { asked } = guard;
  if (earlier === null || !toldOff || asked.kind !== 'off' || asked.since === null) return earlier;
  return { ...earlier, pumpUntil: monotonicMillis(Math.min(earlier.pumpUntil, asked.since)) };
};

/** As if the start had waited for it: no water has been given since. */
const wholly = (before: ControllerState, ours: ControllerState): Partial<ControllerState> => ({
  ...before,
  toldOff: ours.toldOff,
  earlier: earlierUntilToldOff(before.earlier, ours),
  senses: { ...ours.senses, last: { ...before.senses.last, ...ours.senses.last } },
  orders: ours.orders,
  guard: ours.toldOff ? { ...ours.guard, floodStarts: before.guard.floodStarts } : before.guard,
  alarms: bothAlarms(before.alarms, ours.alarms),
  calls: bothCalls(before.calls, ours.calls),
  host: ours.host,
  memory: { ...before.memory, idleSince: ours.memory.idleSince, lineGone: ours.memory.lineGone },
});

/**
 * What was learned of the pump since stands beside what was known: no alarm goes for being told late of it. A return sensor that
 * proved nothing before proves neither the water that this host took from it.
 */
const bothMemories = (before: Memory, ours: Memory): Memory => {
  const runsOn = ours.runsOn ?? before.runsOn;
  const returnTrust = before.returnTrust.stuckSince === null ? ours.returnTrust : before.returnTrust;
  if (ours.lastWaterAt !== null) return { ...ours, runsOn, returnTrust };
  return {
    ...before,
    runsOn,
    unasked: ours.unasked,
    lineGone: ours.lineGone,
    missed: ours.missed ?? before.missed,
    degraded: ours.degraded ?? before.degraded,
    idleSince: ours.idleSince,
    shut: ours.shut,
  };
};

/** Where water has been given since, or a board with a keeper has told what it gave, this host knows better what the benches hold. */
const inPart = (farm: Farm, before: ControllerState, ours: ControllerState): Partial<ControllerState> => ({
  alarms: bothAlarms(before.alarms, ours.alarms),
  carriedAlarms: before.carriedAlarms,
  calls: bothCalls(before.calls, ours.calls),
  day: {
    saidOn: ours.day.saidOn ?? before.day.saidOn,
    verdicts: [...before.day.verdicts, ...ours.day.verdicts],
  },
  floodCount: before.floodCount + ours.floodCount,
  learned: before.learned,
  clock: before.clock,
  // A tank that was low is so until a whole flood has left it well.
  tank: ours.tank.kind === 'well' ? before.tank : ours.tank,
  tankTrend: {
    ...(ours.tankTrend.last === null ? before.tankTrend : ours.tankTrend),
    ...courseAcross(farm, before.tankTrend, ours.tankTrend),
  },
  memory: bothMemories(before.memory, ours.memory),
});

/** The flood in which the earlier host ended has no other verdict to come. */
const leftVerdict = ({ flood }: KeptState): readonly Happening[] =>
  flood === null
    ? []
    : [
        {
          kind: 'verdict',
          flood: flood.id,
          part: flood.part,
          verdict: {
            kind: 'withheld',
            says: 'the host ended in it, and nobody knows how long its pump ran',
          },
        },
      ];

/**
 * The clock as it is known now. What is known of an earlier start of the machine says nothing of it, nor does a version that did
 * not ask; and what was said since this start, by a person or by what has set it, is not taken back.
 */
const clockOfNow = (before: ClockTrust, ours: ClockTrust, kept: KeptTrust, boot: Boot): ClockTrust => {
  if (ours.isConfirmed) return ours;
  // Of another start only a jump counts: what this host has seen of its own clock stands, and what was good then is not now.
  if (boot === 'another')
    return before.steppedAt === null ? ours : { ...ours, goodOffset: null, steppedAt: before.steppedAt };
  const known = tellsWhatSet(kept, boot) ? before : asUnset(before);
  return ours.isUnset ? known : asSet(known);
};

const recalled = (turn: Turn, { kept, away, boot }: Extract<Past, { kind: 'read' }>): Turn => {
  const { farm, state, now } = turn;
  const resumedAs = resumed(farm, kept, now, away, state.link, boot);
  const before = { ...resumedAs, clock: clockOfNow(resumedAs.clock, state.clock, kept.clock, boot) };
  const hasWatered = state.flood !== null || state.floodCount > 0 || isHeardKeeper(state);
  const known = hasWatered
    ? turnedTo(turn, inPart(farm, before, state), leftVerdict(kept))
    : turnedTo(turn, wholly(before, state));
  return recalledHolds(known, before.orders);
};

/** Takes in what became of the past: until it is known no flood is given, for a stated time. */
export const heardPast = (turn: Turn, past: Past): Turn => {
  switch (past.kind) {
    case 'awaited':
    case 'lost':
      return waited(turn, past.kind);
    case 'read':
      return recalled(turn, past);
    case 'none':
      return waitedEnough(turn);
  }
};
