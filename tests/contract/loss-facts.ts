import { describe, expect } from 'vitest';
import { secondsBetween } from '../../src/time/instant.ts';
import { seconds } from '../../src/units/quantity.ts';
import { until, type OpenBench } from './bench.ts';
import { messagesOf, RELAY_PIN, SERIAL_NUMBER, timesDriven } from './bench-board.ts';
import { down, factsOn, pinAt, told, up } from './visit.ts';

const LONG = seconds(600);
/** Three silent seconds, the beat that sees them, and what the machine may be late. */
const STALL_SECONDS = 5;

export const lossFacts = (name: string, openBench: OpenBench): void => {
  describe(`${name}: is lost and found`, () => {
    const fact = factsOn(openBench);

    fact('is down at once when the cable is pulled', async (visit) => {
      const { bench, link } = visit;
      link.command({ kind: 'pump-on', longest: LONG });
      await pinAt(visit, RELAY_PIN, 1);
      await bench.unplug(bench.ports[0]);
      await down(visit, 1);
      expect(link.link()).toMatchObject({
        why: expect.stringMatching(/unplugged|no serial port is there/) as string,
      });
      expect(link.identity()).toBeNull();
    });

    fact(
      'refuses and counts what is asked while it is down, and never says it to the next board',
      async (visit) => {
        const { bench, link } = visit;
        await bench.unplug(bench.ports[0]);
        await down(visit, 1);
        link.command({ kind: 'pump-on', longest: LONG });
        link.command({ kind: 'pump-on', longest: LONG });
        expect(link.counts().refusedCommands).toBe(2);
        const again = bench.newBoard();
        await bench.plug(bench.ports[0], again.peer, SERIAL_NUMBER);
        await up(bench, link);
        await bench.pass(2);
        expect([timesDriven(again, RELAY_PIN, 1), again.levelOf(RELAY_PIN)]).toEqual([0, 0]);
        link.command({ kind: 'pump-on', longest: LONG });
        await pinAt({ ...visit, board: again }, RELAY_PIN, 1, 2 + bench.kind.restsSeconds);
        expect(link.counts().refusedCommands).toBe(2);
      },
    );

    fact('is found by its identity on another port, with the relay at rest', async (visit) => {
      const { bench, link } = visit;
      link.command({ kind: 'pump-on', longest: LONG });
      await bench.pass(0.5);
      await bench.unplug(bench.ports[0]);
      await down(visit, 1);
      const again = bench.newBoard();
      await bench.plug(bench.ports[1], again.peer, SERIAL_NUMBER);
      await up(bench, link);
      expect(link.identity()?.line).toBe(bench.ports[1]);
      await bench.pass(1.5);
      expect([timesDriven(again, RELAY_PIN, 1), again.levelOf(RELAY_PIN)]).toEqual([0, 0]);
      const first = messagesOf(again.heard).slice(0, 2);
      expect(first.filter(({ kind }) => kind !== 'version-query' && kind !== 'firmware-query')).toEqual([]);
      await told(visit, 'probe', () => true);
    });

    fact(
      'is down within 5 s when it stalls, tells nothing of before as new, and is found again',
      async (visit) => {
        const { bench, link } = visit;
        await told(visit, 'probe', () => true);
        link.samples();
        const stalledAt = bench.timers.now();
        bench.stall(bench.ports[0]);
        let newest = -Infinity;
        await until(
          bench,
          'the link is down',
          () => {
            for (const { at } of link.samples()) newest = Math.max(newest, secondsBetween(stalledAt, at));
            return link.link().kind === 'down';
          },
          STALL_SECONDS,
        );
        // What came before the stall is told at the next reading, a second later at most.
        expect(newest).toBeLessThan(1.2);
        expect(link.link()).toMatchObject({
          why: expect.stringContaining('has not answered for 3 s') as string,
        });
        await up(bench, link);
        // The port was let go of before it was opened again.
        expect(link.counts().connections).toBe(2);
        await told(visit, 'probe', ({ at }) => secondsBetween(stalledAt, at) > 3);
      },
    );

    fact(
      'is seen to have been lost by a host that looks once a second, however short the loss',
      async (visit) => {
        const { bench, link } = visit;
        await bench.unplug(bench.ports[0]);
        const again = bench.newBoard({ bootMillis: 0 });
        await bench.plug(bench.ports[0], again.peer, SERIAL_NUMBER);
        const seen: string[] = [];
        for (let look = 0; look < 5; look += 1) {
          await bench.pass(1);
          seen.push(link.link().kind);
        }
        expect(seen).toContain('down');
        expect(seen.at(-1)).toBe('up');
      },
    );

    fact('tells every wired channel rightly again within 12 s of a reset of its own', async (visit) => {
      const { bench, link, board } = visit;
      board.digital.set(9, 1).set(3, 1).set(4, 0).set(10, 0);
      board.analog.set(2, 611);
      bench.look();
      await told(visit, 'leak', ({ wet }) => !wet);
      board.peer.reset(bench.timers.now());
      await bench.pass(6);
      await up(bench, link);
      link.samples();
      await bench.pass(4);
      const samples = link.samples();
      const of = (channel: string): readonly unknown[] =>
        samples.filter((sample) => sample.channel === channel);
      expect(of('leak')).toEqual(of('leak').map(() => expect.objectContaining({ wet: false }) as unknown));
      expect(of('relay-read-back')).toEqual(
        of('relay-read-back').map(() => expect.objectContaining({ closed: false }) as unknown),
      );
      expect(of('probe').at(-1)).toMatchObject({ counts: 611 });
      expect(new Set(samples.map(({ channel }) => channel)).size).toBe(11);
    });
  });
};
