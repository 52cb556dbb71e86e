import {
  begin,
  PAST_UNREAD_MINUTES,
  resumed,
  type ControllerState,
  type Event,
} from '../../src/controller.ts';
import type { Farm } from '../../src/farm/farm.ts';
import type { Link } from '../../src/ports/board.ts';
import type { HostHealth } from '../../src/ports/host-health.ts';
import { tellsWhatSet } from '../../src/time/clock-trust.ts';
import { minutesBetween, type MonotonicMillis, type Now } from '../../src/time/instant.ts';
import { absenceOf, type Absence } from '../start/absence.ts';
import type { ClockSource } from '../start/clock-source.ts';
import type { Found, OpenedJournal } from '../storage/journal/journal.ts';
import { readKept, type StoredState } from '../storage/kept-state.ts';
import { doubtedIfUnset } from './clock-left.ts';

export interface PastAsked {
  readonly farm: Farm;
  readonly journal: OpenedJournal;
  /** The kernel's name for this start of the machine. */
  readonly boot: string | null;
  readonly source: ClockSource;
  /** Whether hosts before this one knew the farm by another name, and what they knew lies elsewhere. */
  readonly leftBehind: 'nothing' | 'a-book';
  readonly talk: (text: string) => void;
}

/** What the host before this one knew, whenever its book gives it. */
export interface Past {
  /** The state to begin with. */
  readonly begun: (now: Now, link: Link) => ControllerState;
  /** What the controller has to hear of it after that. */
  readonly events: (now: Now) => readonly Event[];
  /** False while what is kept now would be written over what nobody has read yet. */
  readonly mayKeep: () => boolean;
  readonly unread: (now: MonotonicMillis) => HostHealth['pastUnread'];
}

/** A card that is slow opens its book within this; nobody is called for that. The pump is held meanwhile. */
const LATE_TOLD_MINUTES = 1;
/** Long enough to be seen; what is lost does not come back. */
const LOST_TOLD_MINUTES = 60;

const LATE = `The book has not opened yet, and with it what the host before this one knew: somebody may hold the pump. No flood is given before it has, for ${PAST_UNREAD_MINUTES} min at most. With hands in the water pull the plug of the pump.`;
const LOST = `What the host before this one knew cannot be read: a hold of the pump and alarms from before may be forgotten. No flood is given for ${PAST_UNREAD_MINUTES} min. With hands in the water pull the plug of the pump.`;
const READ = 'The book has opened after all, and what the host before this one knew counts on.';

const absenceWords = ({ away }: Absence): string =>
  away === 'unknown'
    ? 'Going on where the host before this one ended; nobody knows how long ago that was.'
    : `Going on where the host before this one ended, ${away < 1 ? 'less than a minute' : `${Math.round(away)} min`} ago.`;

/** `lost` where something had been kept, and cannot be read or is not understood. */
const storedIn = ({ keptState, setAside }: Found, talk: PastAsked['talk']): StoredState | 'none' | 'lost' => {
  if (setAside !== null) {
    talk(
      `The book was set aside: ${setAside.why}. It lies at ${setAside.path}, and a new one was begun.${keptState === null ? '' : ' What the host before this one knew was read out of it.'}`,
    );
  }
  const kept = readKept(keptState);
  switch (kept.kind) {
    case 'found':
      return kept.stored;
    case 'unusable':
      talk(`What the host before this one knew cannot be used: ${kept.why}`);
      return 'lost';
    case 'none':
      return setAside === null ? 'none' : 'lost';
  }
};

export const createPast = ({ farm, journal, boot, source, leftBehind, talk }: PastAsked): Past => {
  const { late } = journal;
  const inBook = late === null ? storedIn(journal.found, talk) : 'late';
  const first = inBook === 'none' && leftBehind === 'a-book' ? 'lost' : inBook;
  let arrived: Found | null = null;
  void late?.then((found) => {
    arrived = found;
  });
  /** What the controller was told of it last; null before anything. */
  let told: 'awaited' | 'lost' | 'settled' | null = first === 'late' || first === 'lost' ? null : 'settled';
  let lateSince: MonotonicMillis | null = null;
  let lostSince: MonotonicMillis | null = null;

  const absenceSince = (stored: StoredState, now: Now): Absence =>
    absenceOf({ boot: stored.boot, at: stored.state.at }, boot, now, source);
  const lost = ({ monotonic }: Now): readonly Event[] => {
    told = 'lost';
    lostSince = monotonic;
    talk(LOST);
    return [{ kind: 'past', past: { kind: 'lost' } }];
  };
  const recalled = (found: Found, now: Now): readonly Event[] => {
    arrived = null;
    const stored = storedIn(found, talk);
    if (stored === 'lost') return lost(now);
    told = 'settled';
    talk(READ);
    if (stored === 'none') return [{ kind: 'past', past: { kind: 'none' } }];
    const absence = absenceSince(stored, now);
    return [{ kind: 'past', past: { kind: 'read', kept: stored.state, ...absence } }];
  };

  const withClock = (state: ControllerState): ControllerState => ({
    ...state,
    clock: doubtedIfUnset(state.clock, source),
  });

  return {
    begun: (now, link) => {
      // Somebody stands there at the first start of a farm, also under another name.
      if (inBook === 'none') return begin(farm, now, link);
      if (typeof first === 'string') return withClock(begin(farm, now, link));
      const absence = absenceSince(first, now);
      talk(absenceWords(absence));
      const state = resumed(farm, first.state, now, absence.away, link, absence.boot);
      return tellsWhatSet(first.state.clock, absence.boot) ? state : withClock(state);
    },
    events: (now) => {
      if (arrived !== null) return recalled(arrived, now);
      if (told !== null) return [];
      if (first === 'lost') return lost(now);
      told = 'awaited';
      lateSince = now.monotonic;
      talk(LATE);
      return [{ kind: 'past', past: { kind: 'awaited' } }];
    },
    mayKeep: () => told === 'settled' || told === 'lost',
    unread: (now) => {
      if (told === 'awaited' && lateSince !== null)
        return minutesBetween(lateSince, now) >= LATE_TOLD_MINUTES ? { why: 'late' } : null;
      return lostSince !== null && minutesBetween(lostSince, now) < LOST_TOLD_MINUTES
        ? { why: 'damaged' }
        : null;
    },
  };
};
