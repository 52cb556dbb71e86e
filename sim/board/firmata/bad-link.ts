import { assert } from '../../../src/units/assertion.ts';
import type { Dice } from '../../dice.ts';

/** Bytes under way at once; what comes on top is lost, as in any buffer. */
export const LINK_BYTES_MAX = 4096;

const BITS = 8;

/** Nothing comes out of the link from `fromMillis` on until `untilMillis`; then all that waited does. */
export interface Stall {
  readonly fromMillis: number;
  readonly untilMillis: number;
}

export interface LinkFaults {
  readonly dice: Dice;
  /** Shares of bytes, 0 to 1. */
  readonly lossShare: number;
  /** One bit of the byte is turned over. */
  readonly flipShare: number;
  readonly duplicateShare: number;
  readonly delayMillis: number;
  readonly stalled: readonly Stall[];
}

export interface LinkTally {
  readonly lost: number;
  readonly flipped: number;
  readonly duplicated: number;
  /** Lost because the link was full. */
  readonly overrun: number;
}

/** One direction of a serial line. Bytes keep their order. */
export interface BadLink {
  readonly send: (bytes: Uint8Array, now: number) => void;
  /** What has come through by `now` and was not received before. */
  readonly receive: (now: number) => Uint8Array;
  /** When the next byte comes out, or `null` when none is under way or it never will. */
  readonly nextDue: (now: number) => number | null;
  readonly tally: () => LinkTally;
}

/** A byte pipe that spoils what goes through it; the same dice spoil the same bytes. */
export const createBadLink = (faults: LinkFaults): BadLink => {
  const { dice, lossShare, flipShare, duplicateShare, delayMillis, stalled } = faults;
  for (const share of [lossShare, flipShare, duplicateShare])
    assert(share >= 0 && share <= 1, `a share of ${share}`);
  assert(delayMillis >= 0, `a delay of ${delayMillis} ms`);
  /** Oldest first; a byte never overtakes one sent before it. */
  let underWay: { readonly byte: number; readonly dueAt: number }[] = [];
  const tally = { lost: 0, flipped: 0, duplicated: 0, overrun: 0 };

  const put = (byte: number, dueAt: number): void => {
    if (underWay.length < LINK_BYTES_MAX) underWay.push({ byte, dueAt });
    else tally.overrun += 1;
  };
  const sendByte = (byte: number, dueAt: number): void => {
    // Four throws for every byte, so that one fault's share does not move the others.
    const [loss, flip, bit, duplicate] = [dice(), dice(), dice(), dice()] as const;
    if (loss < lossShare) {
      tally.lost += 1;
      return;
    }
    const flips = flip < flipShare;
    const doubles = duplicate < duplicateShare;
    const sent = flips ? byte ^ (1 << Math.floor(bit * BITS)) : byte;
    if (flips) tally.flipped += 1;
    if (doubles) tally.duplicated += 1;
    put(sent, dueAt);
    if (doubles) put(sent, dueAt);
  };
  /** The first moment from `now` on that lies in no stall. */
  const flowingFrom = (now: number): number => {
    const stall = stalled.find(({ fromMillis, untilMillis }) => fromMillis <= now && now < untilMillis);
    return stall ? flowingFrom(stall.untilMillis) : now;
  };

  return {
    send: (bytes, now) => {
      const dueAt = Math.max(now + delayMillis, underWay.at(-1)?.dueAt ?? -Infinity);
      for (const byte of bytes) sendByte(byte, dueAt);
    },
    receive: (now) => {
      if (flowingFrom(now) > now) return new Uint8Array();
      const through = underWay.filter(({ dueAt }) => dueAt <= now);
      underWay = underWay.slice(through.length);
      return Uint8Array.from(through, ({ byte }) => byte);
    },
    nextDue: (now) => {
      const [first] = underWay;
      if (!first) return null;
      const due = flowingFrom(Math.max(now, first.dueAt));
      return Number.isFinite(due) ? due : null;
    },
    tally: () => ({ ...tally }),
  };
};
