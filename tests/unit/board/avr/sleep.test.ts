import { beforeAll, describe, expect, it } from 'vitest';
import type { TraceEntry } from '../../../../sim/board/avr/trace.ts';
import { benchChip, CYCLES_A_MILLI } from './bench-chip.ts';
import { compiled } from './compiled.ts';

let sleeper: Uint8Array;
let waker: Uint8Array;
beforeAll(() => {
  sleeper = compiled('sleeper.c');
  waker = compiled('waker.c');
});

/** A wire that changes now and then, an analog channel that climbs, in steps that fit no timer. */
const seen = (fastForward: boolean, stepMillis: number): readonly TraceEntry[] => {
  const bench = benchChip(sleeper, { fastForward });
  bench.chip.trace.start();
  bench.digital.set(2, 1);
  for (let at = 0; at < 4400; at += 44) {
    bench.digital.set(2, at % 176 < 88 ? 1 : 0);
    bench.analog.set(3, at / 44);
    for (let done = 0; done < 44; done += stepMillis) {
      bench.chip.advanceTo((at + done + stepMillis) * CYCLES_A_MILLI);
      if (done + stepMillis === 44) bench.chip.refreshInputs();
    }
  }
  return bench.chip.trace.entries();
};

describe('a sleep that is jumped over', () => {
  it('comes to the same as one gone through cycle by cycle: every edge and byte of 4.4 s at its cycle', () => {
    const short = seen(true, 44);
    const long = seen(false, 44);
    const edges = (pin: number): number =>
      short.filter((entry) => entry.kind === 'pin' && entry.pin === pin).length;
    // Timer 0: 16 MHz / 256 / 234 = 267 a second. The others: 1 s, 62.5 ms, 4.19 s, 16.4 ms.
    expect(edges(8)).toBeGreaterThan(1100);
    expect([edges(9), edges(10), edges(11)]).toEqual([1 + 4, 1 + 70, 1 + 1]);
    expect(edges(12)).toBeGreaterThan(260);
    // Four conversions, and four bytes sent; the wire changes every 88 ms.
    expect([edges(13), edges(4)]).toEqual([1 + 4, 1 + 4]);
    expect(edges(5)).toBeGreaterThan(40);
    expect(short).toEqual(long);
  });

  it('comes to the same in steps of 1 ms as in steps of 44 ms', () => {
    expect(seen(true, 1)).toEqual(seen(true, 44));
  });

  it('wakes a firmware once a second for a day, 86 399 edges, each 16 000 000 cycles after the one before', () => {
    const bench = benchChip(waker);
    bench.chip.trace.start();
    bench.chip.advanceTo(86_400 * 1000 * CYCLES_A_MILLI);
    const cycles = bench.chip.trace
      .entries()
      .flatMap((entry) => (entry.kind === 'pin' && entry.level !== 'floating' ? [entry.cycle] : []));
    const gaps = new Set(cycles.slice(2).map((cycle, index) => cycle - cycles[index + 1]!));
    // The first entry is the pin becoming an output. The crystal counts from the reset, the timer from its start.
    expect(cycles.length - 1).toBe(86_400 - 1);
    expect([...gaps]).toEqual([16_000_000]);
    expect(bench.chip.tally().instructions / 86_400).toBeGreaterThan(250);
  });
});
