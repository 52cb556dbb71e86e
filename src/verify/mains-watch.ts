import type { FloodBefore } from '../estimate/tank-trend.ts';
import type { Reading } from '../sense/reading.ts';
import type { Seen } from '../sense/seen.ts';
import { minutesBetween, secondsBetween, type MonotonicMillis } from '../time/instant.ts';

/** The contact must say so for this long; the board waits as long (docs/board-protocol.md, Mains). */
export const MAINS_LOST_SECONDS = 10;
/** By then the channels of a flood from before the loss have drained: the same as in `return-trust`. */
const DRAINED_MINUTES = 12;

/** What a contact has said of the mains of the pump, and whether it may be believed. */
export interface MainsWatch {
  /** Since when it has said that they are lost; null while it says that they are there. */
  readonly lostSince: MonotonicMillis | null;
  /** Water came back although they should have been lost for long: until it says "there" again, it lies. */
  readonly word: 'believed' | 'denied';
  /** When the roots last had water before the loss, as far as anybody knows. */
  readonly restedSince: MonotonicMillis | null;
}

export const MAINS_THERE: MainsWatch = { lostSince: null, word: 'believed', restedSince: null };

/** What else is known at the moment of a look. */
export interface BesideMains {
  readonly water: Seen;
  /** When the last flood ended, or now while the pump is asked on. */
  readonly wetUntil: MonotonicMillis | null;
  readonly lastFlood: FloodBefore;
}

/**
 * Held against the water: one contact that lies, or whose cable is cut, must not count every flood as missed. Water
 * that came back is held to until the contact says that all is well, or a flood is missed after all.
 */
export const mainsWatch = (
  before: MainsWatch,
  contact: Reading<boolean>,
  beside: BesideMains,
  now: MonotonicMillis,
): MainsWatch => {
  if (contact.quality !== 'good') return before;
  if (contact.value) return before.lostSince === null ? before : MAINS_THERE;
  const lostSince = before.lostSince ?? now;
  const flows = beside.water === 'seen' && minutesBetween(lostSince, now) >= DRAINED_MINUTES;
  const denied = flows || (before.word === 'denied' && beside.lastFlood === 'not-missed');
  return {
    lostSince,
    word: denied ? 'denied' : 'believed',
    restedSince: before.lostSince === null ? beside.wetUntil : before.restedSince,
  };
};

/** Since when the mains have been lost, as far as that may be believed; null else. */
export const mainsLostSince = (
  { lostSince, word }: MainsWatch,
  now: MonotonicMillis,
): MonotonicMillis | null =>
  lostSince !== null && word === 'believed' && secondsBetween(lostSince, now) >= MAINS_LOST_SECONDS
    ? lostSince
    : null;
