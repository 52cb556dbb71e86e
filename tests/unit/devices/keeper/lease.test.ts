import { describe, expect, it } from 'vitest';
import type { BoardCommand } from '../../../../src/ports/board.ts';
import { seconds } from '../../../../src/units/quantity.ts';
import { HEARTBEAT, LET_GO, PUMP, STATUS } from './keeper-stub.ts';
import { heardTypes, ownedBench, type LinkBench } from './link-bench.ts';

const on = (longest: number): BoardCommand => ({ kind: 'pump-on', longest: seconds(longest) });

const OFF: BoardCommand = { kind: 'pump-off' };

const runs = ({ stub }: LinkBench): boolean => stub.state.pump !== null;

describe('the lease', () => {
  it('goes on with each completed tick, with 10 s, the time of day and the signals', () => {
    const bench = ownedBench();
    bench.link().show({ buzzer: 'sounding', lamp: 'lit' });
    bench.pass(30);
    const beats = heardTypes(bench, HEARTBEAT);
    expect(beats.at(-1)).toEqual([101, 0, 10, 0xd0, 2, 29, 3]);
    expect(beats.length).toBeGreaterThanOrEqual(30);
    expect(bench.stub.state.owner).toBe('host');
  });

  it('is not renewed without a tick, whatever the timers do; the board has its pump back after 10 s', () => {
    const bench = ownedBench();
    bench.pass(1);
    const before = heardTypes(bench, HEARTBEAT).length;
    bench.pass(9, 'no-ticks');
    expect([heardTypes(bench, HEARTBEAT).length, bench.stub.state.owner]).toEqual([before, 'host']);
    expect(heardTypes(bench, STATUS).length).toBeGreaterThanOrEqual(8);
    bench.pass(3, 'no-ticks');
    expect(bench.stub.state.owner).toBe('keeper');
    expect(bench.told.at(-1)).toMatchObject({
      kind: 'down',
      keeps: true,
      why: 'the board has taken the pump, and floods by its own table',
    });
    expect(heardTypes(bench, HEARTBEAT).length).toBe(before);
  });

  it('sends no heartbeat for two ticks in 100 ms', () => {
    const bench = ownedBench();
    const before = heardTypes(bench, HEARTBEAT).length;
    bench.link().alive('unknown');
    bench.link().alive('unknown');
    bench.pass(1, 'no-ticks');
    expect(heardTypes(bench, HEARTBEAT).length).toBe(before + 1);
  });
});

describe('the loss of the pump', () => {
  it.each([
    [
      'the keeper took it',
      (bench: LinkBench) => {
        bench.stub.takeBack(3);
      },
      /the board has taken the pump/,
    ],
    [
      'another epoch holds',
      ({ stub }: LinkBench) => {
        stub.state.epoch += 2;
      },
      /given the pump to somebody else/,
    ],
  ] as const)('%s: the link is down for 2 s, and up again on the same line', (_, happens, why) => {
    const bench = ownedBench();
    happens(bench);
    const since = bench.now();
    bench.pass(1);
    expect(bench.told.at(-1)).toMatchObject({ kind: 'down', keeps: true, why });
    bench.pass(5);
    expect(bench.told.map(({ kind }) => kind)).toEqual(['up', 'down', 'up']);
    const [, claimed] = bench.stub.heard.filter(({ type }) => type === 3);
    expect(claimed!.at - since).toBeGreaterThanOrEqual(2000);
  });

  it('by a stale answer to a command counts as one', () => {
    const bench = ownedBench();
    bench.stub.state.epoch += 1;
    bench.link().command(OFF);
    bench.pass(1, 'no-ticks');
    expect(bench.told.at(-1)).toMatchObject({ kind: 'down', why: /no longer takes this host/ });
  });

  it('by a reset of the board ends the line', () => {
    const bench = ownedBench();
    bench.stub.state.bootAt = bench.now();
    bench.pass(2);
    expect(bench.told.at(-1)).toEqual({ kind: 'lost', why: 'the board has reset itself' });
  });

  it('by silence ends the line within 5 s', () => {
    const bench = ownedBench();
    bench.line.toHost = () => [];
    bench.pass(5);
    expect(bench.told.at(-1)).toEqual({ kind: 'lost', why: 'the keeper has not answered for 3 s' });
  });

  it.each([
    [5, ['up']],
    [60, ['up', 'down', 'up']],
  ] as const)('by a host that was stopped for %d s ends no line: %j', (stopped, told) => {
    const bench = ownedBench();
    bench.pass(2);
    // The board has lived on while nothing of the host ran: no beat, no tick, no question.
    bench.stub.state.leaseUntil -= stopped * 1000;
    bench.stub.state.bootAt -= stopped * 1000;
    bench.pass(6);
    expect(bench.told.map(({ kind }) => kind)).toEqual(told);
  });
});

describe('what changes nothing', () => {
  const unasked: readonly (readonly [string, (bench: LinkBench) => void])[] = [
    [
      'a frame that no question asked for',
      ({ stub, link }) => {
        const answer = stub.answer({ type: STATUS, seq: 77, body: [] })!;
        link().heard({ type: 0x42, seq: 77, body: decoded(answer) });
      },
    ],
    [
      'a stale answer to a command that was never sent',
      ({ link }) => {
        link().heard({ type: 0x40, seq: 200, body: Uint8Array.of(PUMP, 1, 9, 9) });
      },
    ],
    [
      'an unknown type',
      ({ link }) => {
        link().heard({ type: 0x66, seq: 0, body: Uint8Array.of(1) });
      },
    ],
    [
      'an ack of let go',
      ({ link }) => {
        link().heard({ type: 0x40, seq: 1, body: Uint8Array.of(LET_GO, 0, 9, 9) });
      },
    ],
  ];
  const decoded = (sysex: readonly number[]): Uint8Array => {
    const data = sysex.slice(2, -1);
    const bytes = Array.from({ length: data.length / 2 }, (_, at) => data[2 * at]! + 128 * data[2 * at + 1]!);
    return Uint8Array.from(bytes.slice(2, -2));
  };

  it.each(unasked)('%s', (_, happens) => {
    const bench = ownedBench();
    bench.pass(1);
    const { told, stub, link } = bench;
    const before = [told.length, stub.heard.length, JSON.stringify(link().state())];
    const heard = stub.heard.length;
    happens(bench);
    expect([told.length, heard, JSON.stringify(link().state())]).toEqual(before);
  });

  it('an answer that comes twice', () => {
    const bench = ownedBench();
    bench.line.toHost = () => [1, 2];
    bench.link().command(on(1200));
    bench.pass(20);
    expect(bench.told.map(({ kind }) => kind)).toEqual(['up']);
    expect(heardTypes(bench, PUMP)).toHaveLength(1);
  });

  it('an older status that comes after a newer one, within the time of an answer', () => {
    const bench = ownedBench({ shortestOff: 0 });
    let late = true;
    bench.line.toHost = (frame) => {
      if (frame[2] !== 0x42 || !late) return [1];
      late = false;
      return [1500];
    };
    // The board answers this tick before it hears of the command.
    bench.link().alive('unknown');
    bench.link().command(on(1200));
    bench.pass(5);
    expect([runs(bench), heardTypes(bench, PUMP).length]).toEqual([true, 1]);
  });

  it('an old status that comes 8 s late', () => {
    const bench = ownedBench();
    bench.line.toHost = (frame) => (frame[2] === 0x42 ? [1, 8000] : [1]);
    bench.link().command(on(1200));
    bench.pass(30);
    expect(bench.told.map(({ kind }) => kind)).toEqual(['up']);
    expect(heardTypes(bench, PUMP)).toHaveLength(1);
  });
});
