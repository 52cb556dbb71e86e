import { describe, expect, it } from 'vitest';
import type { BoardCommand } from '../../../../src/ports/board.ts';
import { seconds } from '../../../../src/units/quantity.ts';
import { asU16 } from './board-side.ts';
import { PUMP } from './keeper-stub.ts';
import { AT_ONCE, heardTypes, ownedBench, type LinkBench } from './link-bench.ts';

const on = (longest: number): BoardCommand => ({ kind: 'pump-on', longest: seconds(longest) });

const OFF: BoardCommand = { kind: 'pump-off' };

const runs = ({ stub }: LinkBench): boolean => stub.state.pump !== null;

const leftOf = ({ stub, now }: LinkBench): number => ((stub.state.pump?.until ?? now()) - now()) / 1000;

describe('a pump command', () => {
  it('goes at once with the own epoch, and once when it is answered', () => {
    const bench = ownedBench();
    bench.link().command(on(1200));
    bench.pass(5);
    expect(heardTypes(bench, PUMP)).toEqual([[101, 0, 1, 0xb0, 4]]);
    expect(runs(bench)).toBe(true);
    bench.link().command(OFF);
    bench.pass(5);
    expect(heardTypes(bench, PUMP).slice(1)).toEqual([[101, 0, 0, 0, 0]]);
    expect(runs(bench)).toBe(false);
  });

  it('is said again 300 ms later when its ack is missing, with the same number', () => {
    const bench = ownedBench();
    bench.line.toHost = (frame) => (frame[2] === 0x40 ? [] : [1]);
    bench.link().command(on(1200));
    bench.pass(1, 'no-ticks');
    const asked = bench.stub.heard.filter(({ type }) => type === PUMP);
    expect(asked.map(({ at }) => at - asked[0]!.at)).toEqual([0, 300, 600, 900]);
    expect(new Set(asked.map(({ seq }) => seq)).size).toBe(1);
    expect(bench.stub.state.starts).toBe(1);
  });

  it('that the line has lost for 60 s is said until the board shows it, and then no more', () => {
    const bench = ownedBench();
    bench.line.toBoard = (frame) => (frame[2] === PUMP ? [] : [1]);
    bench.link().command(on(1200));
    bench.pass(60);
    expect(runs(bench)).toBe(false);
    bench.line.toBoard = AT_ONCE;
    bench.pass(2);
    expect(runs(bench)).toBe(true);
    // It ends when it would have: 62 s of it are over.
    expect(leftOf(bench)).toBeGreaterThan(1130);
    expect(leftOf(bench)).toBeLessThan(1140);
    const said = heardTypes(bench, PUMP).length;
    bench.pass(20);
    expect(heardTypes(bench, PUMP).length).toBe(said);
  });

  it('to stop a pump that the board shows running is said again each second', () => {
    const bench = ownedBench();
    bench.link().command(OFF);
    bench.pass(2);
    bench.stub.startPump(600);
    bench.pass(3);
    expect(runs(bench)).toBe(false);
  });

  it('is made good when the board shows another end by more than 3 s', () => {
    const bench = ownedBench();
    bench.link().command(on(1200));
    bench.pass(3);
    bench.stub.state.pump!.until -= 60_000;
    bench.pass(3);
    expect(leftOf(bench)).toBeGreaterThan(1190);
  });

  it('has had its time after its longest: the board is told to stop should it run on', () => {
    const bench = ownedBench();
    bench.link().command(on(30));
    bench.pass(5);
    bench.stub.state.pump!.until += 600_000;
    bench.line.toBoard = (frame) => (frame[2] === PUMP ? [] : [1]);
    bench.pass(26);
    bench.line.toBoard = AT_ONCE;
    bench.pass(2);
    expect([runs(bench), heardTypes(bench, PUMP).at(-1)]).toEqual([false, [101, 0, 0, 0, 0]]);
  });

  it('is not started again when the board has come to its end by its own faster clock', () => {
    const bench = ownedBench({ shortestOff: 0 });
    bench.link().command(on(60));
    bench.pass(57);
    bench.stub.state.pump!.until = bench.now();
    bench.pass(10);
    expect([bench.stub.state.starts, runs(bench)]).toEqual([1, false]);
  });

  it('none since the claim leaves a running flood of the keeper alone', () => {
    const bench = ownedBench();
    bench.stub.startPump(600);
    bench.pass(30);
    expect([runs(bench), heardTypes(bench, PUMP)]).toEqual([true, []]);
  });

  it('of the time before a loss is not said after it', () => {
    const bench = ownedBench();
    bench.line.toBoard = (frame) => (frame[2] === PUMP ? [] : [1]);
    bench.link().command(on(1200));
    bench.pass(2);
    bench.stub.takeBack(0);
    bench.line.toBoard = AT_ONCE;
    bench.pass(20);
    const epochs = heardTypes(bench, PUMP).map((body) => asU16(body, 0));
    expect([bench.isUp(), runs(bench), epochs.filter((epoch) => epoch !== 101)]).toEqual([true, false, []]);
  });
});

describe('a refusal', () => {
  it('because the motor rests is told, and the command said again when it has rested, with what is left of its time', () => {
    const bench = ownedBench({ shortestOff: 30 });
    bench.stub.state.offSince = bench.now() - 10_000;
    bench.link().command(on(1200));
    bench.pass(2);
    expect(bench.link().state().refusal).toMatchObject({ what: 'resting', seconds: 20 });
    expect(heardTypes(bench, PUMP)).toHaveLength(1);
    bench.pass(22);
    expect([runs(bench), heardTypes(bench, PUMP).length]).toEqual([true, 2]);
    expect(asU16(heardTypes(bench, PUMP)[1]!, 3)).toBeLessThan(1182);
    expect(bench.link().state().refusal).toBeNull();
  });

  it('because of the tank is told, and the command not said before the next sip may come', () => {
    const bench = ownedBench({ tankLowSips: 'refused' });
    bench.link().command(on(1200));
    bench.pass(290);
    expect(bench.link().state().refusal).toMatchObject({ what: 'tank-low', seconds: 300 });
    expect(heardTypes(bench, PUMP)).toHaveLength(1);
    bench.pass(20);
    expect(heardTypes(bench, PUMP)).toHaveLength(2);
  });

  it('because of a hold is told, and the command never said again, also when the hold is over', () => {
    const bench = ownedBench();
    bench.stub.state.holdUntil = bench.now() + 60_000;
    bench.link().command(on(1200));
    bench.pass(120);
    expect(bench.link().state().refusal).toMatchObject({ what: 'held' });
    expect([runs(bench), heardTypes(bench, PUMP).length]).toEqual([false, 1]);
  });

  it('because of a hold with 3 s left is over with it: both count its end for themselves', () => {
    const bench = ownedBench();
    bench.stub.state.holdUntil = bench.now() + 3000;
    bench.link().command(on(1200));
    bench.pass(12);
    expect(runs(bench)).toBe(true);
  });

  it('of a flood that a hold at the board has ended stands after the hold', () => {
    const bench = ownedBench();
    bench.link().command(on(1200));
    bench.pass(3);
    bench.stub.state.pump = null;
    bench.stub.state.holdUntil = bench.now() + 30_000;
    bench.pass(90);
    expect([runs(bench), heardTypes(bench, PUMP).length]).toEqual([false, 1]);
  });

  it('in part is told with what was granted, and not asked for again', () => {
    const bench = ownedBench({ longestOn: 300 });
    bench.link().command(on(1200));
    bench.pass(20);
    expect(bench.link().state().refusal).toMatchObject({ what: 'cut-short', seconds: 300 });
    expect(heardTypes(bench, PUMP)).toHaveLength(1);
  });
});
