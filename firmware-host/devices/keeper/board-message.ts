import { SETUP_BYTES } from '../../../src/farm/keeper-setup.ts';
import { bodyReader } from './body-reader.ts';
import type { Frame } from './frame.ts';
import { entriesIn, type LogEntry } from './log.ts';
import { statusIn, type KeeperStatus } from './status.ts';

/** What a keeper may say to a host: docs/board-protocol.md, "Board to host". */

/** Schema, number of parts, longest rest and return lag; then each part, at most eight. */
export const TABLE_BYTES = { least: 6 + 8, most: 6 + 8 * 8 } as const;

const RESULTS = [
  'done',
  'stale',
  'resting',
  'held',
  'tank-low',
  'bad-value',
  'not-set-up',
  'not-stored',
] as const;
export type AckResult = (typeof RESULTS)[number];

export interface Hello {
  readonly protocol: { readonly major: number; readonly minor: number };
  readonly firmware: { readonly major: number; readonly minor: number };
  /** As it lies in the flash. */
  readonly setup: Uint8Array;
}

export interface Ack {
  /** Type of the question. */
  readonly type: number;
  readonly result: AckResult;
  readonly value: number;
}

export type BoardMessage =
  | ({ readonly kind: 'ack' } & Ack)
  | ({ readonly kind: 'hello' } & Hello)
  | { readonly kind: 'status'; readonly status: KeeperStatus }
  | { readonly kind: 'table'; readonly slot: number; readonly seq: number; readonly table: Uint8Array }
  | { readonly kind: 'log'; readonly first: number; readonly entries: readonly LogEntry[] };

const ackIn = (body: Uint8Array): BoardMessage | null => {
  if (body.length !== 4) return null;
  const { u8, u16 } = bodyReader(body);
  const result = RESULTS[u8(1)];
  return result === undefined ? null : { kind: 'ack', type: u8(0), result, value: u16(2) };
};

const helloIn = (body: Uint8Array): BoardMessage | null => {
  if (body.length !== 4 + SETUP_BYTES) return null;
  const { u8 } = bodyReader(body);
  return {
    kind: 'hello',
    protocol: { major: u8(0), minor: u8(1) },
    firmware: { major: u8(2), minor: u8(3) },
    setup: body.slice(4),
  };
};

const statusMessageIn = (body: Uint8Array): BoardMessage | null => {
  const status = statusIn(body);
  return status === null ? null : { kind: 'status', status };
};

const tableIn = (body: Uint8Array): BoardMessage | null => {
  const table = body.slice(3);
  if (table.length < TABLE_BYTES.least || table.length > TABLE_BYTES.most) return null;
  const { u8, u16 } = bodyReader(body);
  return u8(0) > 2 ? null : { kind: 'table', slot: u8(0), seq: u16(1), table };
};

const logIn = (body: Uint8Array): BoardMessage | null => {
  if (body.length < 2) return null;
  const entries = entriesIn(body.slice(2));
  return entries === null ? null : { kind: 'log', first: bodyReader(body).u16(0), entries };
};

/** The message in a frame; null when its type is unknown or anything about its body is wrong. */
export const boardMessageIn = ({ type, body }: Frame): BoardMessage | null => {
  switch (type) {
    case 0x40:
      return ackIn(body);
    case 0x41:
      return helloIn(body);
    case 0x42:
      return statusMessageIn(body);
    case 0x48:
      return tableIn(body);
    case 0x49:
      return logIn(body);
    default:
      return null;
  }
};
