import { beforeAll, describe, expect, it } from 'vitest';
import { benchChip } from './bench-chip.ts';
import { compiled } from './compiled.ts';

let sleeps: Uint8Array;
let stays: Uint8Array;
beforeAll(() => {
  sleeps = compiled('response.c');
  stays = compiled('response.c', '-DAWAKE');
});

const TICK = 1024;
/** The jump of the vector. */
const JUMP_CYCLES = 3;
const edges = (flash: Uint8Array, pin: number): readonly number[] => {
  const bench = benchChip(flash);
  bench.chip.trace.start();
  bench.run(100);
  return bench.chip.trace
    .entries()
    .flatMap((entry) => (entry.kind === 'pin' && entry.pin === pin ? [entry.cycle] : []))
    .slice(1);
};

describe('an interrupt', () => {
  // ATmega328P data sheet, "Interrupt Response Time": four cycles, and four more out of sleep.
  it('is answered 4 cycles and a jump after its flag, 4 more out of idle sleep', () => {
    const [asleep, ...none] = edges(sleeps, 8).map((cycle) => cycle % TICK);
    expect([asleep, none.length]).toEqual([4 + 4 + JUMP_CYCLES, 0]);
    // Awake the jump to itself of two cycles may have to end.
    const [awake] = edges(stays, 8).map((cycle) => cycle % TICK);
    expect([4 + JUMP_CYCLES, 5 + JUMP_CYCLES]).toContain(awake);
  });

  it('that pends when interrupts are enabled waits for one instruction more, and for no second', () => {
    // Data sheet, "Reset and Interrupt Handling": the instruction following SEI is executed before any pending interrupt.
    expect([edges(sleeps, 9).length, edges(sleeps, 10).length]).toEqual([1, 0]);
  });
});
