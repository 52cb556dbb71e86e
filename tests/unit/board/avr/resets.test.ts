import { beforeAll, describe, expect, it } from 'vitest';
import { benchChip, CYCLES_A_MILLI, type BenchChip } from './bench-chip.ts';
import { compiled } from './compiled.ts';

let firmware: Uint8Array;
let leavesWatchdog: Uint8Array;
beforeAll(() => {
  firmware = compiled('resets.c');
  leavesWatchdog = compiled('resets.c', '-DLEAVES_WATCHDOG');
});

const letter = (text: string): number => text.charCodeAt(0);
const ALL_PINS = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13];

interface Start {
  readonly cause: number;
  readonly handed: number;
  readonly starts: number;
  readonly cleared: number;
  readonly ports: number;
  readonly watchdog: number;
}
const startOf = (bench: BenchChip): Start => {
  const [mark, cause, handed, starts, cleared, ports, watchdog] = bench.said();
  expect(mark).toBe(letter('S'));
  return {
    cause: cause!,
    handed: handed!,
    starts: starts!,
    cleared: cleared!,
    ports: ports!,
    watchdog: watchdog!,
  };
};
/** Started, and 5 ms on: it drives its pins and has told of itself. */
const started = (change: Parameters<typeof benchChip>[1] = {}): readonly [BenchChip, Start] => {
  const bench = benchChip(firmware, { sramFill: 0x41, ...change });
  bench.run(5);
  return [bench, startOf(bench)];
};

describe('power-on', () => {
  it('tells PORF alone and finds SRAM as chance left it, which the program clears only in part', () => {
    const [, start] = started();
    expect(start).toMatchObject({ cause: 1, starts: 0x42, cleared: 0, ports: 0 });
  });

  it('finds other bytes with another seed, and the same with the same', () => {
    const ramOf = (seed: number): string =>
      Buffer.from(benchChip(firmware, { seed }).chip.sram()).toString('hex');
    expect(ramOf(3)).toBe(ramOf(3));
    expect(ramOf(3)).not.toBe(ramOf(4));
  });

  it('after a loss of power clears the causes before it: PORF alone again', () => {
    const bench = benchChip(leavesWatchdog, { sramFill: 0 });
    bench.run(5);
    bench.chip.reset('brown-out');
    bench.run(5);
    bench.said();
    bench.chip.powerOff();
    expect(bench.chip.state()).toBe('off');
    bench.run(1000);
    bench.chip.powerOn();
    bench.run(5);
    expect(startOf(bench)).toMatchObject({ cause: 1, starts: 1 });
  });
});

describe('a reset', () => {
  it.each([
    ['external', 2],
    ['brown-out', 4],
    ['watchdog', 8],
  ] as const)(
    '%s is told as %i, keeps RAM that is not cleared, and builds every register anew',
    (cause, bit) => {
      const [bench] = started();
      bench.chip.reset(cause);
      bench.run(5);
      expect(startOf(bench)).toMatchObject({ cause: bit, starts: 0x43, cleared: 0, ports: 0 });
      expect(bench.chip.resets()).toEqual({
        'power-on': 1,
        external: 0,
        'brown-out': 0,
        watchdog: 0,
        [cause]: 1,
      });
    },
  );

  it('lets every pin float at its cycle, before anything runs', () => {
    const [bench] = started();
    expect([7, 8, 9].map(bench.levelOf)).toEqual([1, 1, 0]);
    bench.chip.trace.start();
    bench.chip.reset('external');
    expect(ALL_PINS.map(bench.levelOf)).toEqual(ALL_PINS.map(() => 'floating'));
    const at = bench.chip.cycles();
    expect(bench.chip.trace.entries().map(({ cycle }) => cycle - at)).toEqual([0, 0, 0, 0]);
  });

  it('adds its cause to those that the firmware has left', () => {
    const bench = benchChip(leavesWatchdog, { sramFill: 0 });
    bench.run(5);
    bench.said();
    bench.chip.reset('external');
    bench.run(5);
    expect(startOf(bench).cause).toBe(1 | 2);
  });

  it('asked for by what a pin does takes effect after that instruction', () => {
    const bench: BenchChip = benchChip(firmware, {
      world: {
        readDigital: () => 'floating',
        readAnalog: () => 0,
        drive: (pin, level) => {
          if (pin === 7 && level === 1 && bench.chip.resets()['brown-out'] < 2) bench.chip.reset('brown-out');
        },
      },
    });
    bench.run(20);
    expect(bench.chip.resets()['brown-out']).toBe(2);
    expect(bench.chip.state()).toBe('running');
  });
});

describe('the watchdog', () => {
  it('resets after 32.8 ms of 30 asked, and the firmware that turns it off at once lives on', () => {
    const [bench] = started();
    bench.chip.trace.start();
    const before = bench.chip.cycles();
    bench.hear(letter('w'));
    bench.run(45);
    // 4096 periods of 128 kHz (data sheet, "Watchdog Timer Prescale Select"), after the byte and a few instructions.
    const reset = bench.chip.trace.entries().find(({ kind }) => kind === 'reset');
    expect((reset!.cycle - before) / CYCLES_A_MILLI - 10 / 57.6).toBeCloseTo(32, 1);
    expect(startOf(bench)).toMatchObject({ cause: 8, starts: 0x43, watchdog: 0 });
    bench.run(2000);
    expect(bench.chip.resets().watchdog).toBe(1);
  });

  it('that is kicked never resets', () => {
    const [bench] = started();
    bench.hear(letter('k'));
    bench.run(5000);
    expect(bench.chip.resets().watchdog).toBe(0);
  });

  it('stays on at its shortest after its reset: a firmware that leaves it starts anew every 16 ms', () => {
    const bench = benchChip(leavesWatchdog, { sramFill: 0 });
    bench.run(5);
    bench.hear(letter('w'));
    bench.run(32.2);
    bench.said();
    bench.run(160);
    const told = bench.said();
    const starts = told.filter((byte) => byte === letter('S')).length;
    expect(starts).toBe(10);
    // WDE of WDTCSR, which WDRF forces; the shortest prescaler.
    expect(told.slice(-7)[6]).toBe(0x08);
  });

  it('in both modes interrupts once and resets the next time', () => {
    const [bench] = started();
    bench.hear(letter('b'));
    bench.run(20);
    expect([bench.said(), bench.chip.resets().watchdog]).toEqual([[letter('i')], 0]);
    bench.run(20);
    expect(bench.chip.resets().watchdog).toBe(1);
  });

  it('in interrupt mode interrupts every 16 ms and never resets', () => {
    const [bench] = started();
    bench.hear(letter('i'));
    bench.run(16.5 * 10);
    expect([bench.said(), bench.chip.resets().watchdog]).toEqual([Array(10).fill(letter('i')), 0]);
  });

  it('is not turned off without its sequence: 0 written, and 2 s with reset stay', () => {
    const [bench] = started();
    bench.hear(letter('u'));
    bench.run(5);
    expect(bench.said()).toEqual([0x08 | 0x07]);
  });

  it('of an oscillator a tenth slow bites after 35.6 ms', () => {
    const [bench] = started({ watchdogError: -0.1 });
    bench.hear(letter('w'));
    bench.run(35.5);
    expect(bench.chip.resets().watchdog).toBe(0);
    bench.run(0.5);
    expect(bench.chip.resets().watchdog).toBe(1);
  });
});

describe('a bootloader', () => {
  it('holds the chip for its time, pins floating and bytes unheard, then hands the cause on in r2', () => {
    const bench = benchChip(firmware, {
      bootloader: { waitMillis: { external: 500 }, leaves: 'cause-in-r2' },
      sramFill: 0,
    });
    bench.run(5);
    expect(startOf(bench)).toMatchObject({ cause: 0, handed: 1 });
    bench.chip.reset('external');
    bench.hear(letter('k'), letter('k'));
    bench.run(499);
    expect([bench.chip.state(), bench.said(), bench.levelOf(7)]).toEqual(['held', [], 'floating']);
    bench.run(5);
    expect([bench.chip.state(), startOf(bench)]).toMatchObject(['running', { cause: 0, handed: 2 }]);
    expect(bench.chip.tally().unheardBytes).toBe(2);
  });

  it('that waits and leaves the watchdog on never comes to the firmware after a watchdog reset', () => {
    const bench = benchChip(firmware, {
      bootloader: { waitMillis: { watchdog: 500 }, leaves: 'all-as-found' },
    });
    bench.run(5);
    bench.hear(letter('w'));
    bench.run(50);
    bench.said();
    bench.run(2000);
    expect(bench.said()).toEqual([]);
    expect(bench.chip.resets().watchdog).toBeGreaterThan(120);
  });
});
