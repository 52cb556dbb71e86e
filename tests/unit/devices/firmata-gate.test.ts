import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createFirmataGate, type FirmataGate } from '../../../firmware-host/devices/firmata-gate.ts';
import type { Frame } from '../../../firmware-host/devices/keeper/frame.ts';
import { sysexFrame } from './keeper/board-side.ts';

/** Bytes by the tables of the Firmata protocol, 2.8: version, firmware "Hi" 1.2, two pins, one analog channel. */
const VERSION = [0xf9, 2, 8];
const FIRMWARE = [0xf0, 0x79, 1, 2, 0x48, 0, 0x69, 0, 0xf7];
const CAPABILITIES = [0xf0, 0x6c, 0, 1, 1, 1, 0x7f, 0, 1, 2, 10, 0x7f, 0xf7];
const MAPPING = [0xf0, 0x6a, 0x7f, 0, 0xf7];
const HANDSHAKE = [...VERSION, ...FIRMWARE, ...CAPABILITIES, ...MAPPING];
const ANALOG_0 = [0xe0, 0, 4];
const PORT_0 = [0x90, 3, 0];

/** A keeper's answer to a status question is longer; the gate looks at the frame alone. Layout: docs/board-protocol.md, "Frames". */
const KEEPER = sysexFrame(0x40, 7, [3, 0, 1, 2]);

const through = (gate: FirmataGate, bytes: readonly number[]): readonly number[] => [
  ...gate.passed(Uint8Array.from(bytes)),
];
const afterHandshake = (): FirmataGate => {
  const gate = createFirmataGate();
  through(gate, HANDSHAKE);
  return gate;
};

describe('the gate before the Firmata client', () => {
  it('passes a handshake and reports byte for byte, however they are cut', () => {
    const all = [...HANDSHAKE, ...ANALOG_0, ...PORT_0];
    expect(through(createFirmataGate(), all)).toEqual(all);
    const gate = createFirmataGate();
    expect(all.flatMap((byte) => through(gate, [byte]))).toEqual(all);
    expect(gate.droppedBytes()).toBe(0);
    expect(gate.passedMessages()).toBe(6);
  });

  it('knows Firmata by version and firmware together, by neither alone', () => {
    const speaksAfter = (...bytes: readonly number[]): boolean => {
      const gate = createFirmataGate();
      through(gate, bytes);
      return gate.speaksFirmata();
    };
    expect([speaksAfter(...VERSION), speaksAfter(...FIRMWARE), speaksAfter(...VERSION, ...FIRMWARE)]).toEqual(
      [false, false, true],
    );
  });

  it.each([
    ['a report before the handshake', [] as readonly number[], ANALOG_0],
    ['an answer before the version', [], FIRMWARE],
    ['a channel that the board has not', HANDSHAKE, [0xe1, 0, 4]],
    ['a port beyond the pins', HANDSHAKE, [0x91, 1, 0]],
    ['a second list of pins', HANDSHAKE, CAPABILITIES],
    ['a second mapping', HANDSHAKE, MAPPING],
    ['a mapping of three pins for two', [...VERSION, ...CAPABILITIES], [0xf0, 0x6a, 0x7f, 0, 1, 0xf7]],
    ['a list of pins that ends inside one', VERSION, [0xf0, 0x6c, 0, 1, 1, 0xf7]],
    ['a pin state that nobody asked for', HANDSHAKE, [0xf0, 0x6e, 90, 1, 1, 0xf7]],
    ['an empty extended message', HANDSHAKE, [0xf0, 0xf7]],
    ['data without a command', HANDSHAKE, [1, 2, 3]],
    ['a command that no board sends', HANDSHAKE, [0xc0, 1]],
  ])('drops %s', (_, before, bytes) => {
    const gate = createFirmataGate();
    through(gate, before);
    const dropped = gate.droppedBytes();
    expect(through(gate, bytes)).toEqual([]);
    expect(gate.droppedBytes()).toBe(dropped + bytes.length);
  });

  it('hands a whole frame of a keeper to whoever listens for it, and none of its bytes to the client', () => {
    const frames: Frame[] = [];
    const gate = createFirmataGate((frame) => frames.push(frame));
    through(gate, HANDSHAKE);
    const out = [...KEEPER, ...ANALOG_0, ...KEEPER].flatMap((byte) => through(gate, [byte]));
    expect(out).toEqual(ANALOG_0);
    const frame = { type: 0x40, seq: 7, body: Uint8Array.of(3, 0, 1, 2) };
    expect([frames, gate.droppedBytes()]).toEqual([[frame, frame], 0]);
  });

  it.each([
    ['with one bit turned over', KEEPER.with(4, KEEPER[4]! ^ 1)],
    ['with a byte lost', KEEPER.toSpliced(6, 1)],
    ['that another message cuts off', [...KEEPER.slice(0, -3), ...ANALOG_0]],
    ['before the version of the board', KEEPER],
  ])('drops and counts a frame of a keeper %s', (what, bytes) => {
    const frames: Frame[] = [];
    const gate = createFirmataGate((frame) => frames.push(frame));
    if (!what.startsWith('before')) through(gate, HANDSHAKE);
    const out = through(gate, bytes);
    expect([frames, gate.droppedBytes()]).toEqual([[], bytes.length - out.length]);
    expect(gate.droppedBytes()).toBeGreaterThan(0);
  });

  it('drops a message that another cuts off, and passes the other', () => {
    expect(through(afterHandshake(), [0xe0, 5, ...PORT_0])).toEqual(PORT_0);
    expect(through(afterHandshake(), [0xf0, 0x71, 1, ...ANALOG_0])).toEqual(ANALOG_0);
  });

  it.each([
    ['with one bit turned over', KEEPER.with(4, KEEPER[4]! ^ 1), 1],
    ['with a byte lost', KEEPER.toSpliced(6, 1), 1],
    ['without its beginning', KEEPER.slice(1), 1],
    ['with a byte that begins nothing inside', KEEPER.with(6, 0xc0), 1],
    ['that another message cuts off', [...KEEPER.slice(0, -3), ...ANALOG_0], 1],
    ['of which nothing is wrong', KEEPER, 0],
  ])('counts a message %s as %d spoilt, and the next one as whole', (_, bytes, count) => {
    const gate = afterHandshake();
    const whole = gate.passedMessages();
    through(gate, [...ANALOG_0, ...bytes, ...KEEPER]);
    expect(gate.spoiltMessages()).toBe(count);
    expect(gate.passedMessages() - whole).toBeGreaterThanOrEqual(2);
  });

  it('drops an endless message after 2179 bytes and passes the next', () => {
    const gate = afterHandshake();
    expect(through(gate, [0xf0, 0x71, ...Array.from({ length: 5000 }, () => 1)])).toEqual([]);
    expect(gate.droppedBytes()).toBe(5002);
    expect(through(gate, ANALOG_0)).toEqual(ANALOG_0);
  });

  it('of any bytes passes none or drops none twice: passed and dropped never exceed what came', () => {
    fc.assert(
      fc.property(fc.array(fc.uint8Array({ maxLength: 64 }), { maxLength: 40 }), (pieces) => {
        const gate = afterHandshake();
        let came = 0;
        let passed = 0;
        for (const piece of pieces) {
          came += piece.length;
          const out = gate.passed(piece);
          passed += out.length;
          // Whatever passes is made of whole messages: each begins with a command byte.
          if (out.length > 0) expect(out[0]).toBeGreaterThanOrEqual(0x80);
        }
        expect(passed + gate.droppedBytes()).toBeLessThanOrEqual(came);
      }),
      { numRuns: 500 },
    );
  });
});
