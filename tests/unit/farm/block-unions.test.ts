import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { keysKnownAt, schemaAt } from '../../../src/farm/schema-walk.ts';
import { farmSchema } from '../../../src/farm/schema.ts';
import { boardWith, placesOf, problemsWith } from './example.ts';

const told = (change: object): readonly string[] =>
  problemsWith(boardWith(change)).map(
    ({ path, found, allowed, problem, advice }) =>
      `${path.slice(1).join('.')}: ${found}; ${allowed}. ${problem} ${advice ?? ''}`,
  );

describe('a part that may be one of two blocks', () => {
  it('knows the keys of both', () => {
    expect(keysKnownAt(farmSchema, ['board', 'returnFlow'])).toEqual(['pin', 'reads', 'pulsesPerLitre']);
    expect(keysKnownAt(farmSchema, ['board', 'pumpCurrent'])).toEqual(['pin', 'drawsAboveCounts', 'reads']);
    expect(schemaAt(farmSchema, ['board', 'returnFlow', 'reads'])).toBeInstanceOf(z.ZodType);
    expect(schemaAt(farmSchema, ['board', 'returnFlow', 'pulsesPerLitre'])).toBeInstanceOf(z.ZodType);
    expect(schemaAt(farmSchema, ['board', 'returnFlow', 'pulsePerLitre'])).toBeUndefined();
  });

  it('names the key that was meant by pulsePerLitre, once', () => {
    expect(told({ returnFlow: { pin: 2, pulsePerLitre: 1.5 } })).toEqual([
      'returnFlow.pulsePerLitre: the key "pulsePerLitre"; pin, reads, pulsesPerLitre. This key is not known here. Perhaps pulsesPerLitre was meant.',
    ]);
  });

  it('names the key that was meant by raeds', () => {
    const [first] = problemsWith(boardWith({ returnFlow: { pin: 2, raeds: 'low' } }));
    expect(first).toMatchObject({
      path: ['board', 'returnFlow', 'raeds'],
      pointsAt: 'key',
      advice: 'Perhaps reads was meant.',
    });
  });

  it('judges the value of a key that only one of the blocks has by that block', () => {
    expect(told({ returnFlow: { pin: 2, pulsesPerLitre: 12_000 } })).toEqual([
      'returnFlow.pulsesPerLitre: 12000; 0.05 to 10000. The number is too large. ',
    ]);
    expect(told({ returnFlow: { pin: 2, pulsesPerLitre: 'ten' } })).toEqual([
      'returnFlow.pulsesPerLitre: "ten"; 0.05 to 10000. This is the wrong kind of value. ',
    ]);
    expect(told({ returnFlow: { pin: 13, pulsesPerLitre: 1.5 } })).toEqual([
      'returnFlow.pin: 13; a whole number, 2 to 12. The number is too large. ',
    ]);
  });

  it('with keys of both says that they do not go together, and does not ask whether the key itself was meant', () => {
    expect(told({ returnFlow: { pin: 2, reads: 'low', pulsesPerLitre: 1.5 } })).toEqual([
      'returnFlow.pulsesPerLitre: the key "pulsesPerLitre"; pin, reads. This key does not go with the others of this block. ',
    ]);
  });
});

describe('a block inside a block of the board', () => {
  it('names the key that was meant by steinhartHeart', () => {
    const curve = { a: 1e-3, b: 2.5e-4, c: 2.7e-10 };
    expect(problemsWith(boardWith({ airThermistor: { pin: 'A0', steinhartHeart: curve } }))).toMatchObject([
      {
        path: ['board', 'airThermistor', 'steinhartHeart'],
        found: 'the key "steinhartHeart"',
        advice: 'Perhaps steinhartHart was meant.',
      },
    ]);
  });

  it('of the curve wants all three numbers, and knows no fourth', () => {
    const curve = { a: 1e-3, b: 2.5e-4, d: 2.7e-10 };
    const problems = problemsWith(boardWith({ airThermistor: { pin: 'A0', steinhartHart: curve } }));
    expect(placesOf(problems)).toEqual([
      'board.airThermistor.steinhartHart.c',
      'board.airThermistor.steinhartHart.d',
    ]);
  });

  it('of the curve refuses a b of 0, by which every resistance would be one temperature', () => {
    const curve = { a: 1e-3, b: 0, c: 0 };
    expect(told({ airThermistor: { pin: 'A0', steinhartHart: curve } })).toEqual([
      'airThermistor.steinhartHart.b: 0; 0.000001 to 0.01. The number is too small. ',
    ]);
  });

  it('names the key of a part that was meant by pumpCurent', () => {
    const [first] = problemsWith(boardWith({ pumpCurent: { pin: 3 } }));
    expect(first?.advice).toBe('Perhaps pumpCurrent was meant.');
  });
});
