import { expect, it } from 'vitest';
import type { OpenLine } from '../../firmware-host/devices/line.ts';
import { until, virtualBench } from './bench.ts';
import { boardContract } from './board-contract.ts';
import { SERIAL_NUMBER, STOCK } from './bench-board.ts';
import { stockFacts } from './stock-facts.ts';
import { linkOn, up } from './visit.ts';

const NAME = 'a software board in this process';

boardContract(NAME, virtualBench, STOCK);
stockFacts(NAME, virtualBench);

it('waits for a port that takes 0.4 s to close before it opens it again', async () => {
  const bench = await virtualBench();
  let taken = false;
  let refused = 0;
  const open: OpenLine = (name, events) => {
    if (taken) {
      refused += 1;
      bench.timers.setTimeout(() => {
        events.lost('another program has this port');
      }, 1);
      return { write: () => undefined, close: () => Promise.resolve() };
    }
    taken = true;
    const line = bench.lines.open(name, events);
    return {
      write: line.write,
      close: () =>
        new Promise((done) => {
          bench.timers.setTimeout(() => {
            taken = false;
            void line.close().then(done);
          }, 400);
        }),
    };
  };
  await bench.plug(bench.ports[0], bench.newBoard().peer, SERIAL_NUMBER);
  const link = linkOn(bench, { lines: { ...bench.lines, open } });
  await up(bench, link);
  bench.stall(bench.ports[0]);
  await until(bench, 'the link is down', () => link.link().kind === 'down', 5);
  await up(bench, link);
  expect([refused, link.counts().connections]).toEqual([0, 2]);
});
