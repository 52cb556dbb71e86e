import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { HostMessage } from '../../../sim/board/firmata/host-message.ts';
import { createParser } from '../../../sim/board/firmata/parser.ts';
import { bytesOf } from './desk.ts';

const RUNS = 250;
const BYTES = 400;

/** Evenly spread bytes seldom end a frame; half of these are bytes that mean something. */
const anyByte = fc.oneof(
  fc.nat(255),
  fc.constantFrom(0xf0, 0xf7, 0xf4, 0xf5, 0xf9, 0x90, 0xe3, 0xc0, 0xd0, 0x6d, 0x6f, 0x71, 0x79, 0x7a, 0x7c),
);
const anyBytes = fc
  .array(anyByte, { minLength: BYTES, maxLength: BYTES, size: 'max' })
  .map((bytes) => Uint8Array.from(bytes));

/** Bytes on the line of a message with these data groups: the tables again, by length only. */
const lengthsOf = (message: HostMessage): readonly number[] => {
  switch (message.kind) {
    case 'version-query':
    case 'reset':
      return [1];
    case 'report-analog':
    case 'report-digital':
      return [2];
    case 'set-pin-mode':
    case 'set-pin-value':
    case 'digital-port-write':
    case 'analog-write':
    case 'firmware-query':
    case 'capability-query':
    case 'analog-mapping-query':
    case 'sampling-interval-query':
      return [3];
    case 'pin-state-query':
      return [4];
    case 'sampling-interval':
      return [5];
    case 'extended-analog-write':
      return [5, 6, 7, 8, 9];
    case 'string':
      return [3 + 2 * message.text.length];
    case 'unknown-sysex':
      return [3 + message.payload.length];
  }
};

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

describe(`${RUNS * BYTES} arbitrary bytes`, () => {
  it('are each used, dropped or held, and none twice', () => {
    let messagesHeard = 0;
    fc.assert(
      fc.property(anyBytes, (bytes) => {
        const parser = createParser();
        const messages = parser.push(bytes);
        messagesHeard += messages.length;
        const { heardBytes, usedBytes, heldBytes, droppedBytes } = parser.tally();
        expect(heardBytes).toBe(BYTES);
        expect(usedBytes + heldBytes + sum(Object.values(droppedBytes))).toBe(BYTES);
        const lengths = messages.map(lengthsOf);
        expect(usedBytes).toBeGreaterThanOrEqual(sum(lengths.map((choices) => choices[0]!)));
        expect(usedBytes).toBeLessThanOrEqual(sum(lengths.map((choices) => choices.at(-1)!)));
      }),
      { numRuns: RUNS },
    );
    // Were there hardly a message in them, the property would say nothing.
    expect(messagesHeard).toBeGreaterThan(RUNS * 10);
  });

  it('give the same messages however they are cut into pieces', () => {
    fc.assert(
      fc.property(anyBytes, fc.nat(BYTES), fc.nat(BYTES), (bytes, one, other) => {
        const [first, second] = [Math.min(one, other), Math.max(one, other)];
        const parser = createParser();
        const inPieces = [bytes.slice(0, first), bytes.slice(first, second), bytes.slice(second)];
        expect(inPieces.flatMap((piece) => parser.push(piece))).toEqual(createParser().push(bytes));
      }),
      { numRuns: RUNS },
    );
  });

  it('never keep the next whole message from being heard', () => {
    fc.assert(
      fc.property(anyBytes, fc.constantFrom('F4 0D 01', 'F0 6D 0D F7', 'FF'), (bytes, hex) => {
        const parser = createParser();
        parser.push(bytes);
        expect(parser.push(bytesOf(hex))).toEqual(createParser().push(bytesOf(hex)));
      }),
      { numRuns: RUNS },
    );
  });

  it('make no pin, port, channel or value that 7-bit groups cannot spell', () => {
    const most: Partial<Record<string, number>> = { port: 15, channel: 15, bits: 16_383, millis: 16_383 };
    fc.assert(
      fc.property(anyBytes, (bytes) => {
        for (const message of createParser().push(bytes))
          for (const [name, value] of Object.entries(message))
            if (typeof value === 'number') {
              expect(Number.isInteger(value) && value >= 0).toBe(true);
              expect(value).toBeLessThanOrEqual(most[name] ?? (name === 'value' ? 0xffff_ffff : 127));
            }
      }),
      { numRuns: RUNS },
    );
  });
});
