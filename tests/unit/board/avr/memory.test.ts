import { beforeAll, describe, expect, it } from 'vitest';
import { benchChip, CYCLES_A_MILLI, type BenchChip } from './bench-chip.ts';
import { compiled } from './compiled.ts';

let firmware: Uint8Array;
beforeAll(() => {
  firmware = compiled('memory.c');
});

const F = 0x46;
const erased = (): Uint8Array => new Uint8Array(1024).fill(0xff);
const written = (bench: BenchChip): readonly number[] => [...bench.chip.eeprom().subarray(5, 9)];

describe('the EEPROM', () => {
  it('is busy for 3.4 ms a byte, and then holds it', () => {
    const bench = benchChip(firmware);
    bench.run(1);
    bench.hear(0xa1);
    bench.run(0.5);
    // EEPE is set, and the byte not yet there.
    expect([bench.said(), written(bench)[0]]).toEqual([[2], 0xff]);
    bench.run(2.9);
    expect(bench.said()).toEqual([]);
    bench.run(0.5);
    expect([bench.said(), written(bench)[0]]).toEqual([[0xa1], 0xa1]);
    expect(bench.chip.tally().eepromWrites).toBe(1);
  });

  it('outlives a loss of power and every reset', () => {
    const eeprom = erased();
    eeprom[700] = 7;
    const bench = benchChip(firmware, { eeprom });
    bench.run(1);
    bench.hear(0xa1);
    bench.run(6);
    bench.chip.reset('watchdog');
    bench.chip.powerOff();
    bench.run(10);
    bench.chip.powerOn();
    expect([bench.chip.eeprom()[5], bench.chip.eeprom()[700]]).toEqual([0xa1, 7]);
    expect(eeprom[5]).toBe(0xff);
  });

  it('finishes the byte that it writes over a reset', () => {
    const bench = benchChip(firmware);
    bench.run(1);
    bench.hear(0xa1);
    bench.run(1);
    bench.chip.reset('external');
    expect(written(bench)[0]).toBe(0xff);
    bench.run(4);
    expect(written(bench)[0]).toBe(0xa1);
  });

  it.each([
    ['erased', 0xff],
    ['random', null],
  ] as const)('cut off at the second byte keeps the first, and that one %s', (halfWritten, expected) => {
    const asked: [number, number][] = [];
    const bench = benchChip(firmware, {
      eeprom: new Uint8Array(1024),
      halfWritten,
      beforeEepromWrite: (address, value) => {
        asked.push([address, value]);
        return asked.length === 2 ? 'cut' : 'go on';
      },
    });
    bench.run(1);
    bench.hear(0xa1, 0xa2, 0xa3);
    bench.run(20);
    expect(asked).toEqual([
      [5, 0xa1],
      [6, 0xa2],
    ]);
    const [first, second, third] = written(bench);
    expect([first, third, bench.chip.state()]).toEqual([0xa1, 0, 'off']);
    if (expected === null) expect(second).not.toBe(0);
    else expect(second).toBe(expected);
  });

  it('is half written too when the power goes 2 ms after the start of a byte', () => {
    const bench = benchChip(firmware, { eeprom: new Uint8Array(1024), halfWritten: 'erased' });
    bench.run(1);
    bench.hear(0xa1);
    bench.run(2);
    bench.chip.powerOff();
    expect(written(bench)[0]).toBe(0xff);
  });
});

describe('fuse and lock bits', () => {
  it('are read by the program as they are configured, within 3 cycles of asking, and the flash before and after', () => {
    const bench = benchChip(firmware, { fuses: { low: 0xf7, high: 0xd6, extended: 0xfc, lock: 0xcf } });
    bench.run(1);
    bench.hear(F);
    bench.run(3);
    expect(bench.said()).toEqual([0xf7, 0xd6, 0xfc, 0xcf, firmware[0], firmware[3], 0x5a]);
  });

  it('of an Uno are FF, DE, FD and FF', () => {
    const bench = benchChip(firmware);
    bench.run(1);
    bench.hear(F);
    bench.run(3);
    expect(bench.said().slice(0, 4)).toEqual([0xff, 0xde, 0xfd, 0xff]);
    expect(CYCLES_A_MILLI).toBe(16_000);
  });
});
