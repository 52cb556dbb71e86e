import { NO_LOG } from '../../../../firmware-host/devices/keeper/log-memory.ts';
import { describe, expect, it } from 'vitest';
import { monotonicMillis } from '../../../../src/time/instant.ts';
import { linkBench, START } from './link-bench.ts';

const HOUR = 3600;

describe('what is remembered of a log', () => {
  it('is told once: after another hand-shake only the runs since', () => {
    const first = linkBench();
    first.stub.run(0x20, 5000, 111);
    first.pass(1);
    first.pass(1);
    const again = linkBench(
      {
        log: [...first.stub.state.log],
        logFirst: first.stub.state.logFirst,
        bootAt: first.stub.state.bootAt,
        epoch: first.stub.state.epoch,
      },
      { before: first.link().memory() },
    );
    again.stub.run(0x21, 60, 222);
    again.pass(1);
    const [up] = again.told;
    expect(up?.kind === 'up' && up.kept.runs.map(({ seconds }) => seconds)).toEqual([222]);
  });

  it('counts what the board no longer holds: 40 entries since, 32 held', () => {
    const first = linkBench();
    first.stub.run(0x20, 5000, 111);
    first.pass(2);
    const again = linkBench(
      {
        logFirst: first.stub.state.logFirst,
        log: [...first.stub.state.log],
        bootAt: first.stub.state.bootAt,
        epoch: first.stub.state.epoch,
      },
      { before: first.link().memory() },
    );
    for (let at = 0; at < 40; at += 1) again.stub.run(0x20, 4000 - at * 60, at);
    again.pass(1);
    const [up] = again.told;
    expect(up).toMatchObject({ kept: { forgotten: 8 } });
    expect(up?.kind === 'up' && up.kept.runs.map(({ seconds }) => seconds)).toEqual(
      Array.from({ length: 32 }, (_, at) => at + 8),
    );
  });

  it('does not take a log that began anew after a loss of power for one it has read', () => {
    const before = {
      ...NO_LOG,
      next: 20,
      gaps: 'count',
      before: { heard: monotonicMillis(START - HOUR * 1000), epoch: 100, uptime: 9 * HOUR, resets: 1 },
    } as const;
    // Up for half an hour by now: the power was gone in between. Its numbers have passed the old ones again.
    const bench = linkBench({ logFirst: 0, resets: 1, bootAt: START - 1_800_000 }, { before });
    for (let at = 0; at < 25; at += 1) bench.stub.run(0x20, 1700 - at * 60, at);
    bench.pass(1);
    const [up] = bench.told;
    expect(up?.kind === 'up' && up.kept.runs.length).toBe(25);
    expect(up).toMatchObject({ kept: { forgotten: 0 } });
  });

  it('knows a log that began anew, though the board was reset more often since than before, by an epoch that leapt', () => {
    const before = {
      ...NO_LOG,
      next: 3,
      gaps: 'count',
      before: { heard: monotonicMillis(START - 120_000), epoch: 65_000, uptime: 40, resets: 0 },
    } as const;
    const bench = linkBench(
      { logFirst: 0, resets: 2, epoch: (65_000 + 1000 + 3) % 65_536, bootAt: START - 10_000 },
      { before },
    );
    for (let at = 0; at < 5; at += 1) bench.stub.run(0x20, 100 - at * 20, at);
    bench.pass(1);
    const [up] = bench.told;
    expect(up?.kind === 'up' && up.kept.runs.map(({ seconds }) => seconds)).toEqual([0, 1, 2, 3, 4]);
  });

  it('goes on over numbers that go round at 65536, and over a reset', () => {
    const before = {
      ...NO_LOG,
      next: 65_535,
      gaps: 'count',
      before: { heard: monotonicMillis(START - 60_000), epoch: 99, uptime: 9 * HOUR, resets: 1 },
    } as const;
    const bench = linkBench({ logFirst: 65_530, resets: 2, bootAt: START - 10_000 }, { before });
    for (let at = 0; at < 8; at += 1) bench.stub.run(0x20, 500 - at * 60, at);
    bench.pass(1);
    const [up] = bench.told;
    expect(up?.kind === 'up' && up.kept.runs.map(({ seconds }) => seconds)).toEqual([5, 6, 7]);
    expect(up?.kind === 'up' && up.kept.runs[0]?.startedAt).toBeCloseTo(START - 200_000, -3.5);
  });
});
