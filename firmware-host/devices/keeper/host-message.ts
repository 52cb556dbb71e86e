import { assert } from '../../../src/units/assertion.ts';
import type { Signals, TimeOfDay } from '../../../src/ports/board.ts';
import { sysexOf } from './frame.ts';

/** What a host may say to a keeper: docs/board-protocol.md, "Host to board". */
export type HostMessage =
  | { readonly kind: 'hello' }
  | { readonly kind: 'status' }
  | { readonly kind: 'claim'; readonly epoch: number }
  | {
      readonly kind: 'heartbeat';
      readonly epoch: number;
      readonly leaseSeconds: number;
      readonly time: TimeOfDay | 'unknown';
      readonly signals: Signals;
    }
  | { readonly kind: 'pump'; readonly epoch: number; readonly on: boolean; readonly longestSeconds: number }
  /** No seconds: release. `longPresses` that this host has heard of: it ends no hold that it does not know. */
  | {
      readonly kind: 'hold';
      readonly epoch: number;
      readonly seconds: number;
      readonly longPresses: number;
    }
  | { readonly kind: 'table-put'; readonly epoch: number; readonly table: Uint8Array }
  | { readonly kind: 'table-get' }
  | { readonly kind: 'log-get'; readonly from: number }
  | { readonly kind: 'let-go'; readonly epoch: number };

export const HOST_TYPE: Readonly<Record<HostMessage['kind'], number>> = {
  hello: 1,
  status: 2,
  claim: 3,
  heartbeat: 4,
  pump: 5,
  hold: 6,
  'table-put': 7,
  'table-get': 8,
  'log-get': 9,
  'let-go': 10,
};

const BUZZER = 1;
const LAMP = 2;
const UNKNOWN_MINUTE = 0xffff;

const u8 = (value: number): readonly number[] => {
  assert(Number.isInteger(value) && value >= 0 && value <= 0xff, `${value} in one byte`);
  return [value];
};
const u16 = (value: number): readonly number[] => {
  assert(Number.isInteger(value) && value >= 0 && value <= 0xffff, `${value} in two bytes`);
  return [value & 0xff, value >> 8];
};

const timeBytes = (time: TimeOfDay | 'unknown'): readonly number[] =>
  time === 'unknown'
    ? [...u16(UNKNOWN_MINUTE), 0]
    : [...u16(Math.floor(time.minute)), ...u8(Math.floor(time.second))];

const signalBits = ({ buzzer, lamp }: Signals): number =>
  (buzzer === 'sounding' ? BUZZER : 0) | (lamp === 'lit' ? LAMP : 0);

const bodyOf = (message: HostMessage): readonly number[] => {
  switch (message.kind) {
    case 'hello':
    case 'status':
    case 'table-get':
      return [];
    case 'claim':
    case 'let-go':
      return u16(message.epoch);
    case 'heartbeat':
      return [
        ...u16(message.epoch),
        ...u8(message.leaseSeconds),
        ...timeBytes(message.time),
        ...u8(signalBits(message.signals)),
      ];
    case 'pump':
      return [...u16(message.epoch), message.on ? 1 : 0, ...u16(message.longestSeconds)];
    case 'hold':
      return [...u16(message.epoch), ...u16(message.seconds), ...u16(message.longPresses)];
    case 'table-put':
      return [...u16(message.epoch), ...message.table];
    case 'log-get':
      return u16(message.from);
  }
};

/**
 * A message as it goes over the line.
 * @throws BrokenAssertion when a number does not fit its bytes: a mistake of ours
 */
export const bytesOf = (seq: number, message: HostMessage): Uint8Array =>
  sysexOf({ type: HOST_TYPE[message.kind], seq, body: Uint8Array.from(bodyOf(message)) });
