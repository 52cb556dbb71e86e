import { secondsBetween, type MonotonicMillis } from '../../../src/time/instant.ts';
import type { Ack } from './board-message.ts';
import { crc16 } from './crc.ts';
import type { KeeperStatus } from './status.ts';

/** Whether the board has the table that it should flood by. */
export type TableState =
  | { readonly kind: 'unknown' }
  /** Nobody gave one: whatever the board has is right. */
  | { readonly kind: 'any' }
  | { readonly kind: 'in-force' }
  | { readonly kind: 'putting'; readonly crc: number; readonly since: MonotonicMillis }
  /** It floods by another one, for this reason. */
  | { readonly kind: 'failed'; readonly why: string };

export interface TableCheck {
  readonly state: TableState;
  readonly checkedAt: MonotonicMillis | null;
  /** The table that could not be put last, and how often in a row. */
  readonly failed: { readonly crc: number; readonly times: number; readonly at: MonotonicMillis } | null;
}

export const NO_TABLE_CHECK: TableCheck = { state: { kind: 'unknown' }, checkedAt: null, failed: null };

/** A person who changes the plan is in no haste. */
const CHECK_SECONDS = 60;
/** Ninety bytes take the board a third of a second. */
const PUT_SECONDS = 3;
/** Its memory wears by writing: 100,000 times a cell (ATmega328P data sheet, features). So the pause doubles up to a day. */
const DOUBLINGS_MAX = 10;

export const isCheckDue = ({ state, checkedAt }: TableCheck, now: MonotonicMillis): boolean =>
  state.kind !== 'putting' && (checkedAt === null || secondsBetween(checkedAt, now) >= CHECK_SECONDS);

const isTooSoon = ({ failed }: TableCheck, crc: number, now: MonotonicMillis): boolean => {
  if (failed?.crc !== crc) return false;
  const pause = CHECK_SECONDS * 2 ** Math.min(DOUBLINGS_MAX, failed.times - 1);
  return secondsBetween(failed.at, now) < pause;
};

/** What the board's table is against the one wanted; `putting` asks for that to be done. */
export const compared = (
  check: TableCheck,
  wanted: Uint8Array | null,
  { table }: KeeperStatus,
  now: MonotonicMillis,
): TableCheck => {
  if (wanted === null) return { ...check, state: { kind: 'any' }, checkedAt: now };
  const crc = crc16(wanted);
  if (table.crc === crc) return { state: { kind: 'in-force' }, checkedAt: now, failed: null };
  return isTooSoon(check, crc, now)
    ? { ...check, checkedAt: now }
    : { ...check, state: { kind: 'putting', crc, since: now }, checkedAt: now };
};

const failedPut = (check: TableCheck, crc: number, why: string, now: MonotonicMillis): TableCheck => ({
  ...check,
  state: { kind: 'failed', why },
  failed: { crc, times: check.failed?.crc === crc ? check.failed.times + 1 : 1, at: now },
});

/** The board has answered a put. That it did is not taken for granted: the next status must show the table. */
export const putAnswered = (check: TableCheck, { result }: Ack, now: MonotonicMillis): TableCheck => {
  const { state } = check;
  if (state.kind !== 'putting') return check;
  switch (result) {
    case 'bad-value':
      return failedPut(check, state.crc, 'it refuses the new one: a value in it is out of range', now);
    case 'not-stored': {
      const why = 'it could not verify the new one after it was written: its memory may be worn out';
      return failedPut(check, state.crc, why, now);
    }
    case 'not-set-up':
      return failedPut(check, state.crc, 'it is not set up', now);
    case 'done':
    case 'stale':
    case 'resting':
    case 'held':
    case 'tank-low':
      return check;
  }
};

/** What a status shows of a put under way. */
export const readBack = (check: TableCheck, { table }: KeeperStatus, now: MonotonicMillis): TableCheck => {
  const { state } = check;
  if (state.kind !== 'putting') return check;
  if (table.crc === state.crc) return { ...check, state: { kind: 'in-force' }, failed: null };
  return secondsBetween(state.since, now) < PUT_SECONDS
    ? check
    : failedPut(check, state.crc, 'it was sent the new one and does not show it', now);
};

/** A put that was under way when the pump was lost was not heard of again. */
export const interrupted = (check: TableCheck): TableCheck =>
  check.state.kind === 'putting' ? { ...check, state: { kind: 'unknown' }, checkedAt: null } : check;
