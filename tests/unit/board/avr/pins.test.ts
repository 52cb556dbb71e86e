import { beforeAll, describe, expect, it } from 'vitest';
import { benchChip, type BenchChip } from './bench-chip.ts';
import { compiled } from './compiled.ts';

let firmware: Uint8Array;
beforeAll(() => {
  firmware = compiled('pins.c');
});

const started = (): BenchChip => {
  const bench = benchChip(firmware);
  bench.run(1);
  return bench;
};
const asked = (bench: BenchChip, letter: string): readonly number[] => {
  bench.hear(letter.charCodeAt(0));
  bench.run(2);
  return bench.said();
};

describe('an input', () => {
  it('that floats reads 1 with its pull-up on, and what a wire holds otherwise', () => {
    const bench = started();
    expect(asked(bench, 'p')[0]).toBe(0x1c);
    bench.digital.set(3, 0);
    expect(asked(bench, 'p')[0]).toBe(0x14);
  });

  it('that floats without pull-up reads now this, now that', () => {
    expect(asked(started(), 'f')).toEqual([3]);
  });

  it('that is held without pull-up reads one thing', () => {
    const bench = started();
    bench.digital.set(5, 0);
    expect(asked(bench, 'f')).toEqual([2]);
    bench.digital.set(5, 1);
    expect(asked(bench, 'f')).toEqual([1]);
  });

  it('interrupts by any change, by falling and by rising, each as its mask and sense say', () => {
    const bench = started();
    for (const level of [0, 1, 0] as const) {
      for (const pin of [2, 3, 4]) bench.digital.set(pin, level);
      bench.run(1);
    }
    // Down, up, down: three changes, two falls, one rise.
    expect(asked(bench, 'p')).toEqual([0x00, 3, 2, 1]);
  });
});

describe('an output', () => {
  it('tells every change in its order within one advance, each at its own cycle, and none twice', () => {
    const bench = started();
    bench.chip.trace.start();
    asked(bench, 't');
    expect(bench.driven).toEqual([
      [11, 0],
      [11, 1],
      [11, 0],
      // The pull-up of pin 12 is no drive; it becomes an output that is low, then high.
      [12, 0],
      [12, 1],
      [11, 'floating'],
      [12, 'floating'],
    ]);
    const cycles = bench.chip.trace.entries().flatMap((entry) => (entry.kind === 'pin' ? [entry.cycle] : []));
    expect([...cycles].sort((one, other) => one - other)).toEqual(cycles);
    // Both let go in one write.
    expect(new Set(cycles).size).toBe(cycles.length - 1);
  });
});

describe('the converter', () => {
  it('tells the counts of its channel, both bytes', () => {
    const bench = started();
    bench.analog.set(2, 0x2a5);
    expect(asked(bench, 'a')).toEqual([0xa5, 0x02]);
    bench.analog.set(2, 1023);
    expect(asked(bench, 'a')).toEqual([0xff, 0x03]);
  });
});
