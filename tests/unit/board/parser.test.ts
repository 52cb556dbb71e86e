import { describe, expect, it } from 'vitest';
import type { HostMessage } from '../../../sim/board/firmata/host-message.ts';
import { createParser, SYSEX_BYTES_MAX, type DropReason } from '../../../sim/board/firmata/parser.ts';
import { bytesOf } from './desk.ts';

const dataBytes = (count: number): string => Array<string>(count).fill('01').join(' ');

describe('what a host says', () => {
  // Message tables of protocol.md 2.8.0; three rows are the computed bytes of F5, 6F and 7A.
  it.each<[string, HostMessage]>([
    ['F4 0D 01', { kind: 'set-pin-mode', pin: 13, mode: 1 }],
    ['F5 0D 01', { kind: 'set-pin-value', pin: 13, level: 1 }],
    ['F5 0D 7F', { kind: 'set-pin-value', pin: 13, level: 1 }],
    ['F5 0D 00', { kind: 'set-pin-value', pin: 13, level: 0 }],
    ['91 20 00', { kind: 'digital-port-write', port: 1, bits: 0x20 }],
    ['90 00 01', { kind: 'digital-port-write', port: 0, bits: 0x80 }],
    ['E3 7F 01', { kind: 'analog-write', pin: 3, value: 255 }],
    ['F0 6F 0B 7F 01 F7', { kind: 'extended-analog-write', pin: 11, value: 255 }],
    ['F0 6F 0B 7F F7', { kind: 'extended-analog-write', pin: 11, value: 127 }],
    ['F0 6F 0B 7F 7F 7F 7F 0F F7', { kind: 'extended-analog-write', pin: 11, value: 0xffff_ffff }],
    ['C5 01', { kind: 'report-analog', channel: 5, wanted: true }],
    ['C5 7F', { kind: 'report-analog', channel: 5, wanted: true }],
    ['C5 00', { kind: 'report-analog', channel: 5, wanted: false }],
    ['D2 7F', { kind: 'report-digital', port: 2, wanted: true }],
    ['D2 00', { kind: 'report-digital', port: 2, wanted: false }],
    ['F9', { kind: 'version-query' }],
    ['FF', { kind: 'reset' }],
    ['F0 79 F7', { kind: 'firmware-query' }],
    ['F0 6B F7', { kind: 'capability-query' }],
    ['F0 69 F7', { kind: 'analog-mapping-query' }],
    ['F0 6D 0D F7', { kind: 'pin-state-query', pin: 13 }],
    ['F0 7A 68 07 F7', { kind: 'sampling-interval', millis: 1000 }],
    ['F0 7C F7', { kind: 'sampling-interval-query' }],
    ['F0 71 48 00 69 00 F7', { kind: 'string', text: 'Hi' }],
    ['F0 71 F7', { kind: 'string', text: '' }],
    ['F0 01 05 06 F7', { kind: 'unknown-sysex', id: 1, payload: [5, 6] }],
    ['F0 00 01 02 03 F7', { kind: 'unknown-sysex', id: 0, payload: [1, 2, 3] }],
    ['F0 76 F7', { kind: 'unknown-sysex', id: 0x76, payload: [] }],
  ])('%s', (hex, message) => {
    const parser = createParser();
    expect(parser.push(bytesOf(hex))).toEqual([message]);
    expect(parser.tally()).toMatchObject({ usedBytes: bytesOf(hex).length, heldBytes: 0 });
  });
});

describe('what is thrown away, with its reason', () => {
  const whole = SYSEX_BYTES_MAX - 1;
  it.each<[string, string, Partial<Record<DropReason, number>>]>([
    ['data outside of any message', '01 02 7F', { stray: 3 }],
    ['an end of sysex without a start', 'F7', { stray: 1 }],
    ['data after a complete message', 'F4 0D 01 05', { stray: 1 }],
    ['a command that the protocol does not have', '80 A0 B0 F1 F2 F3 F6 F8 FA FE', { unknown: 10 }],
    ['data of an unknown command', 'F1 01', { unknown: 1, stray: 1 }],
    ['a pin mode without its mode', 'F4 0D F9', { cut: 2 }],
    ['an end of sysex after half a message', 'F4 0D F7', { cut: 2, stray: 1 }],
    ['a frame without its end', 'F0 71 48 F9', { cut: 3 }],
    ['a frame begun twice', 'F0 71 F0 79 F7', { cut: 2 }],
    ['an empty frame', 'F0 F7', { 'wrong-length': 2 }],
    ['a firmware query with a payload', 'F0 79 02 F7', { 'wrong-length': 4 }],
    ['a capability query with a payload', 'F0 6B 02 F7', { 'wrong-length': 4 }],
    ['a mapping query with a payload', 'F0 69 02 F7', { 'wrong-length': 4 }],
    ['an interval query with a payload', 'F0 7C 02 F7', { 'wrong-length': 4 }],
    ['a pin-state query without pin', 'F0 6D F7', { 'wrong-length': 3 }],
    ['a pin-state query for two pins', 'F0 6D 01 02 F7', { 'wrong-length': 5 }],
    ['an interval of one group', 'F0 7A 68 F7', { 'wrong-length': 4 }],
    ['an interval of three groups', 'F0 7A 68 07 00 F7', { 'wrong-length': 6 }],
    ['an analog write without pin', 'F0 6F F7', { 'wrong-length': 3 }],
    ['an analog write without value', 'F0 6F 03 F7', { 'wrong-length': 4 }],
    ['an analog write of 6 groups', 'F0 6F 03 00 00 00 00 00 00 F7', { 'wrong-length': 10 }],
    ['an analog write of 33 bits', 'F0 6F 03 00 00 00 00 10 F7', { 'wrong-length': 9 }],
    ['half a letter', 'F0 71 48 F7', { 'wrong-length': 4 }],
    ['a frame of 65 bytes', `F0 01 ${dataBytes(whole + 1)} F7`, { endless: 2 + whole + 1 + 1 }],
    ['a frame of 1000 bytes', `F0 01 ${dataBytes(999)} F7`, { endless: 1002 }],
    ['data after the end of such a frame', `F0 01 ${dataBytes(999)} F7 01`, { endless: 1002, stray: 1 }],
    ['a frame of 1000 bytes cut short', `F0 01 ${dataBytes(999)} F9`, { endless: 1001 }],
  ])('%s', (_, hex, expected) => {
    const parser = createParser();
    const bytes = bytesOf(hex);
    parser.push(bytes);
    const nothing = { stray: 0, unknown: 0, cut: 0, endless: 0, 'wrong-length': 0 };
    expect(parser.tally().droppedBytes).toEqual({ ...nothing, ...expected });
  });

  it('takes a frame of exactly 64 bytes', () => {
    const [message] = createParser().push(bytesOf(`F0 01 ${dataBytes(whole)} F7`));
    expect(message).toEqual({ kind: 'unknown-sysex', id: 1, payload: Array<number>(whole).fill(1) });
  });

  it('holds no more than 65 bytes of a frame that never ends', () => {
    const parser = createParser();
    parser.push(bytesOf('F0 01'));
    const held = Array.from({ length: 10_000 }, () => {
      parser.push(bytesOf('01'));
      return parser.tally().heldBytes;
    });
    expect(Math.max(...held)).toBe(1 + SYSEX_BYTES_MAX);
    expect(held.at(-1)).toBe(0);
  });

  it('hears the command that cuts a frame short', () => {
    expect(createParser().push(bytesOf('F0 71 48 F4 0D 01'))).toEqual([
      { kind: 'set-pin-mode', pin: 13, mode: 1 },
    ]);
  });

  it('drops half a message when told to forget, and hears its rest as stray', () => {
    const parser = createParser();
    parser.push(bytesOf('F4 0D'));
    parser.forget();
    expect(parser.push(bytesOf('01'))).toEqual([]);
    expect(parser.tally().droppedBytes).toMatchObject({ cut: 2, stray: 1 });
  });
});
