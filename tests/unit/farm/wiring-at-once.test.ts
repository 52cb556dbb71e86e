import { describe, expect, it } from 'vitest';
import { boardWith, placesOf, problemsWith } from './example.ts';

describe('a board with several things wrong', () => {
  it('is told of all of them at once: a pin that cannot be hides neither pulses nor a pin used twice', () => {
    const problems = problemsWith(
      boardWith({
        relay: { pin: 13 },
        returnFlow: { pin: 2, pulsesPerLitre: 9000 },
        lamp: 6,
        button: 6,
        humidity: undefined,
      }),
    );
    expect(placesOf(problems).toSorted()).toEqual([
      'board.button',
      'board.relay.pin',
      'board.returnFlow.pulsesPerLitre',
      'sensors.humidity',
    ]);
  });

  it('a part that is there and cannot be read is not told as missing', () => {
    expect(placesOf(problemsWith(boardWith({ tankFloat: { pin: 99 } })))).toEqual(['board.tankFloat.pin']);
  });
});
