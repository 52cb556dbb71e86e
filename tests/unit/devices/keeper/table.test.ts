import { describe, expect, it } from 'vitest';
import { TABLE_BYTES } from '../../../../firmware-host/devices/keeper/board-message.ts';
import { TABLE, TABLE_PUT } from './keeper-stub.ts';
import { heardTypes, ownedBench } from './link-bench.ts';

const OTHER_TABLE = Uint8Array.from([...TABLE.slice(0, -2), 0xb1, 4]);

describe('the table of the board', () => {
  it('that is the wanted one already is not written', () => {
    const bench = ownedBench({}, { table: () => Uint8Array.from(TABLE) });
    bench.pass(130);
    expect(heardTypes(bench, TABLE_PUT)).toEqual([]);
    expect(bench.link().state().table).toEqual({ kind: 'in-force' });
  });

  it('that is another one is written once with the own epoch, and read back', () => {
    const bench = ownedBench({}, { table: () => OTHER_TABLE });
    bench.pass(200);
    expect(heardTypes(bench, TABLE_PUT)).toEqual([[101, 0, ...OTHER_TABLE]]);
    expect(bench.link().state().table).toEqual({ kind: 'in-force' });
  });

  it('is compared again once a minute when the plan changes', () => {
    let wanted = Uint8Array.from(TABLE);
    let asked = 0;
    const table = (): Uint8Array => {
      asked += 1;
      return wanted;
    };
    const bench = ownedBench({}, { table });
    bench.pass(20);
    wanted = OTHER_TABLE;
    bench.pass(30);
    expect(heardTypes(bench, TABLE_PUT)).toEqual([]);
    bench.pass(20);
    expect(heardTypes(bench, TABLE_PUT)).toHaveLength(1);
    expect(asked).toBe(2);
  });

  it.each([
    ['bad-value', /refuses the new one: a value in it is out of range/],
    ['not-stored', /could not verify the new one/],
  ] as const)('that is not taken (%s) is told in words, and written 8 times in 2 h at most', (puts, why) => {
    const bench = ownedBench({ puts }, { table: () => OTHER_TABLE });
    bench.pass(5);
    expect(bench.link().state().table).toMatchObject({ kind: 'failed', why });
    bench.pass(7200);
    const times = heardTypes(bench, TABLE_PUT).length;
    expect(times).toBeGreaterThanOrEqual(4);
    expect(times).toBeLessThanOrEqual(8);
  });

  it('that the board takes and does not show is told as not taken', () => {
    const bench = ownedBench({ deaf: [TABLE_PUT] }, { table: () => OTHER_TABLE });
    bench.pass(6);
    expect(bench.link().state().table).toMatchObject({ kind: 'failed', why: /does not show it/ });
    expect(bench.isUp()).toBe(true);
  });

  it('fits a frame with eight parts', () => {
    const bench = ownedBench({}, { table: () => new Uint8Array(TABLE_BYTES.most).fill(3) });
    bench.pass(2);
    expect(heardTypes(bench, TABLE_PUT)[0]).toHaveLength(2 + 70);
  });
});

describe('the clock of the board', () => {
  it.each([
    [1, 'well', 0],
    [1.015, 'well', 1.5],
    [1.03, 'warning', 3],
    [0.97, 'warning', -3],
    [1.06, 'alarm', 6],
    [0.9, 'alarm', -10],
  ] as const)('at %d of its pace is seen as %s after 11 min', (clockRate, level, percent) => {
    const bench = ownedBench({ clockRate });
    bench.pass(540);
    expect(bench.link().state().drift).toBeNull();
    bench.pass(120);
    expect(bench.link().state().drift).toMatchObject({ level });
    expect(bench.link().state().drift!.percent).toBeCloseTo(percent, 0);
  });

  it('is not blamed when the host has slept for 10 min', () => {
    const bench = ownedBench();
    bench.pass(300);
    bench.stub.state.bootAt -= 600_000;
    for (let minute = 0; minute < 15; minute += 1) {
      bench.pass(60);
      expect([null, 'well']).toContain(bench.link().state().drift?.level ?? null);
    }
    expect(bench.link().state().drift).toMatchObject({ level: 'well' });
  });
});
