import { describe, expect, it } from 'vitest';
import type { BoardCommand } from '../../../../src/ports/board.ts';
import { seconds } from '../../../../src/units/quantity.ts';
import { asU16 } from './board-side.ts';
import { HOLD } from './keeper-stub.ts';
import { AT_ONCE, heardTypes, ownedBench, type LinkBench } from './link-bench.ts';

const on = (longest: number): BoardCommand => ({ kind: 'pump-on', longest: seconds(longest) });

const runs = ({ stub }: LinkBench): boolean => stub.state.pump !== null;

describe('a hold', () => {
  it('goes to the board with its seconds, and a release with none', () => {
    const bench = ownedBench();
    bench.link().command({ kind: 'hold', longest: seconds(1800) });
    bench.pass(3);
    bench.link().command({ kind: 'release' });
    bench.pass(3);
    expect(heardTypes(bench, HOLD)).toEqual([
      [101, 0, 8, 7, 0, 0],
      [101, 0, 0, 0, 0, 0],
    ]);
  });

  it('of the button is not ended by a release that was ordered before the press was heard of', () => {
    const bench = ownedBench();
    bench.link().command({ kind: 'hold', longest: seconds(1800) });
    bench.pass(3);
    bench.line.toBoard = (frame) => (frame[2] === HOLD ? [] : [1]);
    bench.link().command({ kind: 'release' });
    bench.pass(1);
    bench.stub.press(1);
    bench.line.toBoard = AT_ONCE;
    bench.pass(10);
    expect(bench.stub.state.holdUntil - bench.now()).toBeGreaterThan(1_780_000);
    // Refused is answered: it is not said for ever.
    const said = heardTypes(bench, HOLD).length;
    bench.pass(30);
    expect(heardTypes(bench, HOLD)).toHaveLength(said);
    bench.link().command({ kind: 'release' });
    bench.pass(2);
    expect(bench.stub.state.holdUntil).toBe(0);
  });

  it('that the line has lost for 20 s is said until the board takes it, for the time that is left', () => {
    const bench = ownedBench();
    bench.line.toBoard = (frame) => (frame[2] === HOLD ? [] : [1]);
    bench.link().command({ kind: 'hold', longest: seconds(1800) });
    bench.pass(20);
    bench.line.toBoard = AT_ONCE;
    bench.pass(2);
    const left = (bench.stub.state.holdUntil - bench.now()) / 1000;
    expect(left).toBeGreaterThan(1770);
    expect(left).toBeLessThan(1781);
  });

  it('is said once when the board has it: the button there may change it', () => {
    const bench = ownedBench();
    bench.link().command({ kind: 'hold', longest: seconds(1800) });
    bench.pass(2);
    bench.stub.state.holdUntil += 600_000;
    bench.pass(10);
    expect(heardTypes(bench, HOLD)).toHaveLength(1);
  });

  it('of 5 h is asked for as the 4 h that a board takes', () => {
    const bench = ownedBench();
    bench.link().command({ kind: 'hold', longest: seconds(18_000) });
    bench.pass(1);
    expect(asU16(heardTypes(bench, HOLD)[0]!, 2)).toBe(14_400);
  });

  it('takes back what was asked of the pump before it', () => {
    const bench = ownedBench();
    bench.link().command(on(1200));
    bench.pass(2);
    bench.link().command({ kind: 'hold', longest: seconds(10) });
    bench.pass(60);
    expect([bench.stub.state.starts, runs(bench)]).toEqual([1, false]);
  });
});

describe('a hold that is over before the board is heard again', () => {
  it('starts nothing that was asked for before it', () => {
    const bench = ownedBench({ shortestOff: 0 });
    bench.link().command(on(1200));
    bench.pass(2);
    bench.line.toHost = (frame) => (frame[2] === 0x42 ? [] : [1]);
    bench.link().command({ kind: 'hold', longest: seconds(1) });
    bench.pass(2);
    bench.line.toHost = AT_ONCE;
    bench.pass(10);
    expect([runs(bench), bench.stub.state.starts, bench.stub.state.holdUntil < bench.now()]).toEqual([
      false,
      1,
      true,
    ]);
  });
});

describe('presses of the button', () => {
  it('that the board leaves to this host are told within 2 s', () => {
    const bench = ownedBench();
    bench.stub.press(0);
    bench.pass(2);
    bench.stub.press(1);
    bench.pass(2);
    expect(bench.presses).toEqual(['short', { heldSeconds: expect.closeTo(1800, -1) as number }]);
  });

  it('that the keeper has served are not told', () => {
    const bench = ownedBench();
    bench.stub.takeBack(0);
    bench.stub.press(0);
    bench.pass(6);
    expect([bench.isUp(), bench.presses]).toEqual([true, []]);
    bench.stub.press(0);
    bench.pass(2);
    expect(bench.presses).toEqual(['short']);
  });

  it('of the time before the first claim are not told', () => {
    const bench = ownedBench();
    expect(bench.presses).toEqual([]);
  });

  it('that come to light more than 15 s late start nothing', () => {
    const bench = ownedBench();
    bench.line.toBoard = (frame) => (frame[2] === 9 ? [] : [1]);
    bench.stub.press(0);
    bench.pass(20);
    bench.line.toBoard = AT_ONCE;
    bench.pass(3);
    expect(bench.presses).toEqual([]);
  });
});
