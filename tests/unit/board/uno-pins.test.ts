import { describe, expect, it } from 'vitest';
import { UNO_PIN_TABLE } from '../../../sim/board/firmata/uno-pins.ts';

const pinsWith = (mode: number): readonly number[] =>
  UNO_PIN_TABLE.flatMap(({ abilities }, pin) =>
    abilities.some((ability) => ability.mode === mode) ? [pin] : [],
  );
const from2To19 = Array.from({ length: 18 }, (_, place) => place + 2);

describe('the pins of an ATmega328P board', () => {
  it('are 20', () => {
    expect(UNO_PIN_TABLE).toHaveLength(20);
  });

  // Modes by the numbers of protocol.md: 0 input, 1 output, 2 analog, 3 PWM, 0x0B pull-up.
  it.each<[string, number, readonly number[], number]>([
    ['digital input on 2 to 19', 0x00, from2To19, 1],
    ['digital output on 2 to 19', 0x01, from2To19, 1],
    ['pull-up on 2 to 19', 0x0b, from2To19, 1],
    ['analog input of 10 bits on 14 to 19', 0x02, [14, 15, 16, 17, 18, 19], 10],
    ['PWM of 8 bits on 3, 5, 6, 9, 10 and 11', 0x03, [3, 5, 6, 9, 10, 11], 8],
  ])('%s', (_, mode, pins, resolution) => {
    expect(pinsWith(mode)).toEqual(pins);
    const found = UNO_PIN_TABLE.flatMap(({ abilities }) => abilities.filter((one) => one.mode === mode));
    expect(found.every((ability) => ability.resolution === resolution)).toBe(true);
  });

  it('keep 0 and 1 for the serial line', () => {
    expect(UNO_PIN_TABLE.slice(0, 2).map(({ abilities }) => abilities)).toEqual([[], []]);
  });

  it('number channels 0 to 5 on pins 14 to 19 and none elsewhere', () => {
    expect(UNO_PIN_TABLE.map(({ analogChannel }) => analogChannel)).toEqual([
      ...Array<null>(14).fill(null),
      ...[0, 1, 2, 3, 4, 5],
    ]);
  });
});
