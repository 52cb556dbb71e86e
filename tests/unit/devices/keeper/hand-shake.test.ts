import { describe, expect, it } from 'vitest';
import { monotonicMillis } from '../../../../src/time/instant.ts';
import { asU16 } from './board-side.ts';
import { CLAIM, HEARTBEAT, HELLO, LET_GO, LOG_GET, PUMP, STATUS } from './keeper-stub.ts';
import { heardTypes, linkBench, ownedBench, START } from './link-bench.ts';

describe('the hand-shake', () => {
  it('asks hello, status and log, claims with the epoch that holds, and looks again before it is up', () => {
    const bench = linkBench();
    bench.stub.run(0x20, 600, 300);
    bench.pass(1);
    expect(bench.stub.heard.slice(0, 6).map(({ type }) => type)).toEqual([
      HELLO,
      STATUS,
      LOG_GET,
      CLAIM,
      STATUS,
      LOG_GET,
    ]);
    expect(heardTypes(bench, CLAIM)).toEqual([[100, 0]]);
    expect(bench.told.map(({ kind }) => kind)).toEqual(['up']);
    expect(bench.stub.state).toMatchObject({ owner: 'host', epoch: 101 });
  });

  it('gives the runs of the keeper, at their moments by the clock of the host', () => {
    const bench = linkBench();
    bench.stub.run(0x20, 7200, 1200);
    bench.stub.run(0x22, 600, 300);
    bench.pass(1);
    expect(bench.told).toEqual([
      {
        kind: 'up',
        kept: {
          runs: [
            {
              startedAt: expect.closeTo(START - 7_200_000, -3.5) as number,
              seconds: 1200,
              verdict: 'confirmed',
              begunBy: 'board',
              endedBy: 'board',
            },
            {
              startedAt: expect.closeTo(START - 600_000, -3.5) as number,
              seconds: 300,
              verdict: 'missed',
              begunBy: 'board',
              endedBy: 'board',
            },
          ],
          forgotten: 0,
          running: null,
          lastFlood: null,
          holdUntil: null,
        },
      },
    ]);
  });

  it('gives the flood that runs and the hold that is left, and leaves both alone', () => {
    const bench = linkBench({ holdUntil: START + 600_000 });
    bench.stub.startPump(900);
    bench.pass(3);
    expect(bench.told[0]).toMatchObject({
      kept: {
        running: {
          startedAt: expect.closeTo(START, -3.5) as number,
          until: expect.closeTo(START + 900_000, -3.5) as number,
        },
        holdUntil: expect.closeTo(START + 600_000, -3.5) as number,
      },
    });
    expect(bench.stub.state.pump).not.toBeNull();
    expect(heardTypes(bench, PUMP)).toEqual([]);
  });

  it('reads a log of 30 entries in four answers', () => {
    const bench = linkBench();
    for (let at = 0; at < 30; at += 1) bench.stub.run(0x20, 30_000 - at * 1000, 100 + at);
    bench.pass(1);
    const [up] = bench.told;
    expect(up?.kind === 'up' && up.kept.runs.map(({ seconds }) => seconds)).toEqual(
      Array.from({ length: 30 }, (_, at) => 100 + at),
    );
    expect(heardTypes(bench, LOG_GET)).toHaveLength(5);
  });

  it('asks again after 300 ms what is not answered', () => {
    const bench = linkBench({ deaf: [HELLO] });
    bench.pass(1, 'no-ticks');
    const at = bench.stub.heard.map((asked) => asked.at - START);
    expect(at).toEqual([1, 301, 601, 901]);
    expect(new Set(bench.stub.heard.map(({ seq }) => seq)).size).toBe(1);
  });

  it('is over after 3 s without an answer, and says nothing more', () => {
    const bench = linkBench({ deaf: [HELLO] });
    bench.pass(6);
    expect(bench.told).toEqual([{ kind: 'lost', why: 'the keeper has not answered for 3 s' }]);
    const last = bench.stub.heard.at(-1)!;
    expect(last.at).toBeLessThan(START + 4100);
  });

  it('claims nothing before its time: a host that looks once a second must have seen the loss', () => {
    const bench = linkBench({}, { claimFrom: monotonicMillis(START + 2500) });
    bench.pass(2);
    expect(heardTypes(bench, CLAIM)).toEqual([]);
    bench.pass(2);
    expect(bench.isUp()).toBe(true);
  });

  it('begins anew with the status when the epoch was not the one that holds', () => {
    const bench = linkBench();
    // The keeper changes its epoch between status and claim.
    let changed = false;
    bench.line.toBoard = (frame) => {
      if (frame[2] === CLAIM && !changed) {
        changed = true;
        bench.stub.state.epoch += 5;
      }
      return [1];
    };
    bench.pass(3);
    expect(heardTypes(bench, CLAIM).map((body) => asU16(body, 0))).toEqual([100, 105]);
    expect([bench.isUp(), bench.stub.state.epoch]).toEqual([true, 106]);
  });

  it('is over when the board goes silent after the claim; no heartbeat keeps the pump from its keeper', () => {
    const bench = linkBench();
    bench.line.toHost = (frame) => (frame[2] === 0x42 && bench.stub.state.owner === 'host' ? [] : [1]);
    bench.pass(5);
    expect(heardTypes(bench, HEARTBEAT)).toEqual([]);
    expect(bench.told.map(({ kind }) => kind)).toEqual(['lost']);
  });

  it('lets go 6 s after a claim of which it has not heard all, and leaves the keeper its turn of 5 s', () => {
    const bench = linkBench();
    const isStatusOrLog = (frame: readonly number[]): boolean => frame[2] === 0x42 || frame[2] === 0x49;
    const deaf = (frame: readonly number[]): readonly number[] =>
      isStatusOrLog(frame) && bench.stub.state.owner === 'host' ? [] : [1];
    bench.line.toHost = deaf;
    bench.pass(3);
    // One answer: the line is not dead.
    bench.line.toHost = (frame) => (frame[2] === 0x42 ? [1] : deaf(frame));
    bench.pass(1);
    bench.line.toHost = deaf;
    bench.pass(3);
    expect(heardTypes(bench, LET_GO)).toEqual([[101, 0]]);
    bench.line.toHost = () => [1];
    bench.pass(4);
    expect([bench.stub.state.owner, bench.isUp()]).toEqual(['keeper', false]);
    bench.pass(3);
    expect(bench.isUp()).toBe(true);
  });
});

describe('the end', () => {
  it('lets go with the own epoch, says nothing after it, and a running flood goes on', () => {
    const bench = ownedBench();
    bench.stub.startPump(900);
    bench.link().letGo();
    bench.pass(3);
    expect(heardTypes(bench, LET_GO)).toEqual([[101, 0]]);
    expect(bench.stub.heard.at(-1)?.type).toBe(LET_GO);
    expect([bench.stub.state.owner, bench.stub.state.pump === null]).toEqual(['keeper', false]);
  });

  it('of a link that has not claimed needs no word', () => {
    const bench = linkBench({ deaf: [HELLO] });
    bench.link().letGo();
    bench.pass(2);
    expect(bench.stub.heard.map(({ type }) => type)).toEqual([HELLO]);
  });
});
