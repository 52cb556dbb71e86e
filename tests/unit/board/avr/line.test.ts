import { beforeAll, describe, expect, it } from 'vitest';
import { benchChip, CYCLES_A_MILLI, type BenchChip } from './bench-chip.ts';
import { compiled } from './compiled.ts';

let firmware: Uint8Array;
let wrongRate: Uint8Array;
beforeAll(() => {
  firmware = compiled('line.c', '-DRATE=34');
  wrongRate = compiled('line.c', '-DRATE=36');
});

/** Ten bits at 57 600 baud, and at 16 MHz / 8 / 35. */
const HOST_BYTE_CYCLES = (10 * 16_000_000) / 57_600;
const CHIP_BYTE_CYCLES = 2800;

const started = (flash = firmware): BenchChip => {
  const bench = benchChip(flash);
  bench.run(1);
  bench.chip.trace.start();
  return bench;
};
const cyclesOf = (bench: BenchChip, kind: 'sent' | 'heard'): readonly number[] =>
  bench.chip.trace.entries().flatMap((entry) => (entry.kind === kind ? [entry.cycle] : []));

describe('the serial line', () => {
  it('carries 200 bytes there and back, none lost, also when the control register was written first', () => {
    const bench = started();
    const bytes = Array.from({ length: 200 }, (_, index) => (7 * index) % 120);
    bench.hear(...bytes);
    bench.run(50);
    expect(bench.said()).toEqual(bytes);
    expect(bench.chip.tally()).toMatchObject({ overrunBytes: 0, unheardBytes: 0 });
  });

  it('takes ten bits of the host for each byte in, and ten by the registers of the chip for each out', () => {
    const bench = started();
    const before = bench.chip.cycles();
    bench.hear(...Array<number>(100).fill(1));
    bench.run(50);
    const heard = cyclesOf(bench, 'heard').map((cycle) => cycle - before);
    // To the cycle that follows, or the next one by rounding; after 100 bytes still.
    const late = heard.map((cycle, index) => cycle - (index + 1) * HOST_BYTE_CYCLES);
    expect([heard.length, Math.min(...late) >= 0, Math.max(...late) < 1.001]).toEqual([100, true, true]);
    const sent = cyclesOf(bench, 'sent');
    // The chip sends a little more slowly than it hears, so that after the first the next one always waits.
    const gaps = sent.slice(1).map((cycle, index) => cycle - sent[index]!);
    expect(new Set(gaps.slice(20))).toEqual(new Set([CHIP_BYTE_CYCLES]));
    expect(bench.chip.baud()).toBeCloseTo(57_143, 0);
  });

  it('loses bytes that the firmware does not fetch: deaf for 3 ms it keeps two and the newest of 16, and DOR tells it', () => {
    const bench = started();
    bench.hear('z'.charCodeAt(0));
    bench.run(0.3);
    bench.hear(...Array.from({ length: 16 }, (_, index) => index + 1));
    bench.run(20);
    // Two in the buffer, one in the shift register; at the end how often the firmware saw DOR.
    expect(bench.said()).toEqual(['z'.charCodeAt(0), 1, 2, 16, 1]);
    expect(bench.chip.tally().overrunBytes).toBe(13);
  });

  it('at 6 % beside the rate of the host gives other bytes than were sent', () => {
    const bench = started(wrongRate);
    expect(bench.chip.baud()).toBeCloseTo(54_054, 0);
    bench.hear(1, 2, 3);
    bench.run(5);
    expect(bench.said()).toEqual([0xfe, 0xfd, 0xfc]);
  });

  it('is quiet before and after, and not while a byte is on it', () => {
    const bench = started();
    expect(bench.chip.lineIsQuiet()).toBe(true);
    bench.hear(1);
    bench.run(0.1);
    expect(bench.chip.lineIsQuiet()).toBe(false);
    bench.run(1);
    expect(bench.chip.lineIsQuiet()).toBe(true);
  });

  it('loses what is sent to a chip without power', () => {
    const bench = started();
    bench.hear(1, 2, 3);
    bench.run(0.4);
    bench.chip.powerOff();
    bench.hear(4);
    bench.run(10);
    expect(bench.said()).toEqual([1]);
    // The third was on the wire, and the fourth came to nothing.
    expect(bench.chip.tally().unheardBytes).toBe(2);
  });

  it('of a crystal half a percent fast runs half a percent fast against the world', () => {
    const bench = benchChip(firmware, { clockError: 0.005, startMillis: 1000 });
    expect(bench.chip.cycleAt(2000)).toBe(16_080_000);
    bench.chip.advanceTo(16_080_000);
    expect(bench.chip.nowMillis()).toBeCloseTo(2000, 3);
    expect(CYCLES_A_MILLI).toBe(16_000);
  });
});
