import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boardMessageIn } from '../../../../firmware-host/devices/keeper/board-message.ts';
import { bytesOf, type HostMessage } from '../../../../firmware-host/devices/keeper/host-message.ts';
import { BrokenAssertion } from '../../../../src/units/assertion.ts';
import { framesIn, u16, u32 } from './board-side.ts';

/** Bodies by the tables of docs/board-protocol.md, "Host to board" and "Board to host". */

const SIGNALS = { buzzer: 'silent', lamp: 'dark' } as const;
const TABLE = Uint8Array.from([1, 1, 0x30, 0x2a, 0xe0, 1, 0, 0, 0x60, 9, 0x10, 0x0e, 0xb0, 4]);

const SAID: readonly (readonly [string, HostMessage, type: number, body: readonly number[]])[] = [
  ['hello', { kind: 'hello' }, 1, []],
  ['status', { kind: 'status' }, 2, []],
  ['claim of epoch 0x1234', { kind: 'claim', epoch: 0x1234 }, 3, [0x34, 0x12]],
  [
    'heartbeat at 12:34:56 with the buzzer',
    {
      kind: 'heartbeat',
      epoch: 0xffff,
      leaseSeconds: 10,
      time: { minute: 754, second: 56 },
      signals: { buzzer: 'sounding', lamp: 'dark' },
    },
    4,
    [0xff, 0xff, 10, 0xf2, 0x02, 56, 1],
  ],
  [
    'heartbeat without a time of day, with the lamp',
    {
      kind: 'heartbeat',
      epoch: 0,
      leaseSeconds: 2,
      time: 'unknown',
      signals: { buzzer: 'silent', lamp: 'lit' },
    },
    4,
    [0, 0, 2, 0xff, 0xff, 0, 2],
  ],
  ['pump on for 1200 s', { kind: 'pump', epoch: 7, on: true, longestSeconds: 1200 }, 5, [7, 0, 1, 0xb0, 4]],
  ['pump off', { kind: 'pump', epoch: 7, on: false, longestSeconds: 0 }, 5, [7, 0, 0, 0, 0]],
  ['hold for 30 min', { kind: 'hold', epoch: 7, seconds: 1800, longPresses: 258 }, 6, [7, 0, 8, 7, 2, 1]],
  ['release', { kind: 'hold', epoch: 7, seconds: 0, longPresses: 0 }, 6, [7, 0, 0, 0, 0, 0]],
  ['table put', { kind: 'table-put', epoch: 7, table: TABLE }, 7, [7, 0, ...TABLE]],
  ['table get', { kind: 'table-get' }, 8, []],
  ['log from 65535', { kind: 'log-get', from: 0xffff }, 9, [0xff, 0xff]],
  ['let go', { kind: 'let-go', epoch: 258 }, 10, [2, 1]],
];

describe('what a host says', () => {
  it.each(SAID)('%s', (_, message, type, body) => {
    expect(framesIn(bytesOf(42, message))).toEqual([{ type, seq: 42, body }]);
  });

  it.each([
    ['an epoch of 65536', { kind: 'claim', epoch: 0x10000 }],
    ['a negative number', { kind: 'hold', epoch: 1, seconds: -1, longPresses: 0 }],
    ['half a second', { kind: 'pump', epoch: 1, on: true, longestSeconds: 0.5 }],
    [
      'a lease of 256 s',
      { kind: 'heartbeat', epoch: 1, leaseSeconds: 256, time: 'unknown', signals: SIGNALS },
    ],
    ['a table that no frame holds', { kind: 'table-put', epoch: 1, table: new Uint8Array(79) }],
  ] as const)('is never %s', (_, message) => {
    expect(() => bytesOf(1, message)).toThrow(BrokenAssertion);
  });
});

const inFrame = (type: number, body: readonly number[]): ReturnType<typeof boardMessageIn> =>
  boardMessageIn({ type, seq: 9, body: Uint8Array.from(body) });
const SETUP = Array.from({ length: 72 }, (_, at) => at);

describe('what a board says', () => {
  it.each([
    ['done', 0],
    ['stale', 1],
    ['resting', 2],
    ['held', 3],
    ['tank-low', 4],
    ['bad-value', 5],
    ['not-set-up', 6],
    ['not-stored', 7],
  ] as const)('ack: %s is result %d', (result, number) => {
    expect(inFrame(0x40, [5, number, ...u16(0x1234)])).toEqual({
      kind: 'ack',
      type: 5,
      result,
      value: 0x1234,
    });
  });

  it('hello: protocol, firmware, and 72 bytes of setup', () => {
    expect(inFrame(0x41, [1, 2, 3, 4, ...SETUP])).toEqual({
      kind: 'hello',
      protocol: { major: 1, minor: 2 },
      firmware: { major: 3, minor: 4 },
      setup: Uint8Array.from(SETUP),
    });
  });

  it('table: slot, number, bytes', () => {
    expect(inFrame(0x48, [2, 1, 1, ...TABLE])).toEqual({ kind: 'table', slot: 2, seq: 257, table: TABLE });
  });

  it.each([
    [
      'confirmed run of the keeper',
      1,
      0x20,
      1200,
      { verdict: 'confirmed', begunBy: 'board', endedBy: 'board' },
    ],
    ['missed run that a host began', 1, 0x32, 1200, { verdict: 'missed', begunBy: 'host', endedBy: 'board' }],
    ['unproven run', 1, 0x21, 1200, { verdict: 'unproven', begunBy: 'board', endedBy: 'board' }],
    ['sip', 1, 0x23, 20, { verdict: 'sip', begunBy: 'board', endedBy: 'board' }],
    ['run cut short', 1, 0x04, 100, { verdict: 'cut-short', begunBy: 'board', endedBy: 'host' }],
    ['run of the host', 1, 0x15, 900, { verdict: 'judged-by-host', begunBy: 'host', endedBy: 'host' }],
    [
      'run with a verdict of a newer board',
      1,
      0x2e,
      900,
      { verdict: 'unproven', begunBy: 'board', endedBy: 'board' },
    ],
  ] as const)('log: %s', (_, kind, detail, value, run) => {
    expect(inFrame(0x49, [...u16(65_535), ...u32(86_400), kind, detail, ...u16(value)])).toEqual({
      kind: 'log',
      first: 65_535,
      entries: [{ atSeconds: 86_400, logged: { kind: 'run', seconds: value, ...run } }],
    });
  });

  it('log: before a reset seconds are negative; owners, resets and presses are told apart from what else there is', () => {
    const entry = (at: number, kind: number, detail: number, value = 0): readonly number[] => [
      ...u32(at),
      kind,
      detail,
      ...u16(value),
    ];
    const body = [
      ...u16(0),
      ...entry(-90, 6, 0),
      ...entry(-1, 6, 1, 258),
      ...entry(0, 2, 8),
      ...entry(3, 3, 1),
      ...entry(4, 3, 3),
      ...entry(5, 7, 0),
      ...entry(6, 6, 2),
      ...entry(7, 99, 0),
    ];
    expect(inFrame(0x49, body)).toMatchObject({
      entries: [
        { atSeconds: -90, logged: { kind: 'button', press: 'short' } },
        { atSeconds: -1, logged: { kind: 'button', press: 'long', heldSeconds: 258 } },
        { atSeconds: 0, logged: { kind: 'reset' } },
        { atSeconds: 3, logged: { kind: 'owner', owner: 'host' } },
        { atSeconds: 4, logged: { kind: 'owner', owner: 'keeper' } },
        { atSeconds: 5, logged: { kind: 'other', code: 7 } },
        { atSeconds: 6, logged: { kind: 'other', code: 6 } },
        { atSeconds: 7, logged: { kind: 'other', code: 99 } },
      ],
    });
  });

  it('log: nothing, where the board has nothing more', () => {
    expect(inFrame(0x49, u16(12))).toEqual({ kind: 'log', first: 12, entries: [] });
  });

  it.each([
    ['an ack of 3 bytes', 0x40, [5, 0, 0]],
    ['an ack of 5 bytes', 0x40, [5, 0, 0, 0, 0]],
    ['an ack of result 8', 0x40, [5, 8, 0, 0]],
    ['a hello with 71 bytes of setup', 0x41, [1, 0, 1, 0, ...SETUP.slice(1)]],
    ['a hello with 73 bytes of setup', 0x41, [1, 0, 1, 0, ...SETUP, 0]],
    ['a status of 46 bytes', 0x42, SETUP.slice(0, 46).fill(0)],
    ['a status of 48 bytes', 0x42, SETUP.slice(0, 48).fill(0)],
    ['a table of slot 3', 0x48, [3, 0, 0, ...TABLE]],
    ['a table without a part', 0x48, [0, 0, 0, ...TABLE.slice(0, 13)]],
    ['a log without its number', 0x49, [1]],
    ['a log with half an entry', 0x49, [0, 0, 1, 2, 3, 4]],
    ['a log of 9 entries', 0x49, [0, 0, ...SETUP]],
    ['what a host would say', 1, []],
    ['a type that there is not', 0x43, []],
  ] as const)('%s is refused', (_, type, body) => {
    expect(inFrame(type, body)).toBeNull();
  });

  it('of any body of any type makes a message or null, and throws nothing', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 255 }), fc.uint8Array({ maxLength: 80 }), (type, body) => {
        const message = boardMessageIn({ type, seq: 0, body });
        if (message === null) return;
        expect([0x40, 0x41, 0x42, 0x48, 0x49]).toContain(type);
      }),
      { numRuns: 2000 },
    );
  });
});
