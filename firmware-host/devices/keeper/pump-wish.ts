import type { PumpCommand } from '../../../src/ports/board.ts';
import { afterSeconds, secondsBetween, type MonotonicMillis } from '../../../src/time/instant.ts';
import type { Ack, AckResult } from './board-message.ts';
import type { HostMessage } from './host-message.ts';
import type { KeeperStatus } from './status.ts';

/** Why a board did not do what was asked of its pump, or did less. */
export interface Refusal {
  readonly what: Exclude<AckResult, 'done' | 'stale' | 'not-set-up' | 'not-stored'> | 'cut-short';
  /** Until it may be asked again, or those that it granted. */
  readonly seconds: number;
  readonly at: MonotonicMillis;
}

/** What was asked of the pump since it is ours; `none` leaves a running flood alone. */
export type PumpWish =
  | { readonly kind: 'none' }
  | { readonly kind: 'off' }
  | { readonly kind: 'on'; readonly until: MonotonicMillis; readonly refusal: Refusal | null };

export const NO_WISH: PumpWish = { kind: 'none' };

/** Whole seconds, and what the line takes, twice. */
const TOLERANCE_SECONDS = 3;
const SECONDS_MAX = 0xffff;

export const wishOf = (command: PumpCommand, now: MonotonicMillis): PumpWish =>
  command.kind === 'pump-off'
    ? { kind: 'off' }
    : { kind: 'on', until: afterSeconds(now, command.longest), refusal: null };

/** A run that has had its time is to be off, whatever the board thinks. */
export const wishAt = (wish: PumpWish, now: MonotonicMillis): PumpWish =>
  wish.kind === 'on' && secondsBetween(now, wish.until) <= 0 ? { kind: 'off' } : wish;

/** The wish as the board is told it; null when there is none. Every one is absolute, so it may be told twice. */
export const wishMessage = (wish: PumpWish, epoch: number, now: MonotonicMillis): HostMessage | null => {
  switch (wish.kind) {
    case 'none':
      return null;
    case 'off':
      return { kind: 'pump', epoch, on: false, longestSeconds: 0 };
    case 'on': {
      const seconds = Math.floor(secondsBetween(now, wish.until));
      const longestSeconds = Math.min(SECONDS_MAX, Math.max(1, seconds));
      return { kind: 'pump', epoch, on: true, longestSeconds };
    }
  }
};

/**
 * A hold that ends so soon is one that this host thinks is over: both count its seconds for themselves, and after a release
 * the board warns for ten seconds before anything starts.
 */
const SAME_END_SECONDS = 12;

/** Whether a refusal still stands: one for a time is over with it, a person's hold never turns into a start. */
const stands = ({ what, seconds, at }: Refusal, now: MonotonicMillis): boolean => {
  switch (what) {
    case 'resting':
    case 'tank-low':
      return secondsBetween(at, now) <= seconds;
    case 'held':
      return seconds > SAME_END_SECONDS || secondsBetween(at, now) <= seconds;
    case 'bad-value':
      return true;
    case 'cut-short':
      return false;
  }
};

/** Whether the board shows something else than was asked of it, and did not refuse. */
export const isUnmet = (wish: PumpWish, { pump }: KeeperStatus, now: MonotonicMillis): boolean => {
  switch (wish.kind) {
    case 'none':
      return false;
    case 'off':
      return pump.asked === 'on';
    case 'on': {
      if (wish.refusal !== null && stands(wish.refusal, now)) return false;
      const left = secondsBetween(now, wish.until);
      // The board may have come to the end of it by its own clock.
      if (pump.asked === 'off') return left > TOLERANCE_SECONDS;
      return Math.abs(pump.secondsLeft - left) > TOLERANCE_SECONDS;
    }
  }
};

/** A hold at the board ends a run for good: at its end nothing may start that was asked for before it. */
export const wishUnderHold = (wish: PumpWish, status: KeeperStatus, now: MonotonicMillis): PumpWish => {
  if (wish.kind !== 'on' || status.holdSecondsLeft === 0 || status.pump.asked === 'on') return wish;
  const { refusal } = wish;
  // How long the hold lasted when it first stood in the way is what counts.
  if (refusal?.what === 'held' && stands(refusal, now)) return wish;
  return { ...wish, refusal: { what: 'held', seconds: status.holdSecondsLeft, at: now } };
};

/** What the board's answer makes of a wish; `stale` and `not-set-up` are for whoever owns the link. */
export const answeredWish = (wish: PumpWish, { result, value }: Ack, now: MonotonicMillis): PumpWish => {
  if (wish.kind !== 'on') return wish;
  switch (result) {
    case 'done': {
      const granted = afterSeconds(now, value);
      if (secondsBetween(granted, wish.until) <= TOLERANCE_SECONDS) return { ...wish, refusal: null };
      return { kind: 'on', until: granted, refusal: { what: 'cut-short', seconds: value, at: now } };
    }
    case 'resting':
    case 'held':
    case 'tank-low':
    case 'bad-value':
      return { ...wish, refusal: { what: result, seconds: value, at: now } };
    case 'stale':
    case 'not-set-up':
    case 'not-stored':
      return wish;
  }
};
