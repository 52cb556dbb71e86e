import { describe, expect } from 'vitest';
import { HOST_TYPE } from '../../firmware-host/devices/keeper/host-message.ts';
import type { Kept } from '../../src/ports/board.ts';
import { seconds } from '../../src/units/quantity.ts';
import type { OpenBench } from './bench.ts';
import { RELAY_PIN, SERIAL_NUMBER } from './bench-board.ts';
import type { EmulatedBench } from './emulated-bench.ts';
import { framesIn } from './keeper-frames.ts';
import { down, factsOn, living, pinAt, pinStays, up, type Visit } from './visit.ts';

const LONG = seconds(1000);
/** Of docs/board-protocol.md, and a second of counting. */
const LEASE_SECONDS = 10;
/** The meter of the bench, well above what counts as water. */
const HALF_PULSE_MILLIS = 80;

const keptOf = ({ link }: Visit): Kept | undefined => {
  const state = link.link();
  return state.kind === 'up' ? state.kept : undefined;
};

/** Water comes back whenever the pump runs. */
const waterRuns = ({ bench, board }: Visit): void => {
  bench.timers.setInterval(() => {
    if (board.levelOf(RELAY_PIN) !== 1) return;
    board.digital.set(2, board.digital.get(2) === 0 ? 1 : 0);
    bench.look();
  }, HALF_PULSE_MILLIS);
};

/** A board that keeps the plants when nobody else does. */
export const handoverFacts = (name: string, openBench: OpenBench<EmulatedBench>): void => {
  describe(`${name}: keeps the plants`, () => {
    const fact = factsOn(openBench);

    fact('takes the pump 10 s after the last tick at the latest, and floods', async (visit) => {
      const { link } = visit;
      link.stopTicking();
      // The last tick may have been a second ago.
      await pinStays(visit, RELAY_PIN, 0, LEASE_SECONDS - 2);
      await pinAt(visit, RELAY_PIN, 1, 3);
      await down(visit, 1);
      expect(link.link()).toMatchObject({ keeper: 'keeps' });
    });

    fact('lets a running flood go on over the loss of its host, and over its return', async (visit) => {
      const { bench, link } = visit;
      link.command({ kind: 'pump-on', longest: LONG });
      await pinAt(visit, RELAY_PIN, 1);
      const begunAt = bench.timers.now();
      link.stopTicking();
      const changes = visit.board.driven.length;
      await down(visit, LEASE_SECONDS + 2);
      const again = living(bench, link);
      await up(bench, again, 5);
      const running = keptOf(visit)?.running;
      expect(Math.abs((running?.startedAt ?? 0) - begunAt)).toBeLessThan(2500);
      expect(Math.abs((running?.until ?? 0) - begunAt - LONG * 1000)).toBeLessThan(2500);
      await bench.pass(30);
      expect(visit.board.driven.slice(changes).filter(([pin]) => pin === RELAY_PIN)).toEqual([]);
      // Neither line nor board began anew.
      expect(link.counts().connections).toBe(1);
      again.stopTicking();
    });

    fact('runs on when the cable is pulled', async (visit) => {
      const { bench, link } = visit;
      link.command({ kind: 'pump-on', longest: LONG });
      await pinAt(visit, RELAY_PIN, 1);
      await bench.unplug(bench.ports[0]);
      await down(visit, 1);
      expect(link.link()).toMatchObject({ keeper: 'keeps' });
      await pinStays(visit, RELAY_PIN, 1, 60);
    });

    fact('has the pump at once when its host closes the link, and the flood goes on', async (visit) => {
      const { bench, board, link } = visit;
      link.command({ kind: 'pump-on', longest: LONG });
      await pinAt(visit, RELAY_PIN, 1);
      await link.close();
      await pinStays(visit, RELAY_PIN, 1, 2);
      expect(framesIn(board.heard).at(-1)?.type).toBe(HOST_TYPE['let-go']);
      await pinStays(visit, RELAY_PIN, 1, bench.kind.restsSeconds + 30);
    });

    fact('makes a flood whole that a reset has cut in its first half', async (visit) => {
      const { bench, board, link } = visit;
      link.command({ kind: 'pump-on', longest: LONG });
      await pinAt(visit, RELAY_PIN, 1);
      await bench.unplug(bench.ports[0]);
      await pinStays(visit, RELAY_PIN, 1, 60);
      board.peer.reset(bench.timers.now());
      await bench.pass(1);
      expect(board.levelOf(RELAY_PIN)).toBe(0);
      // It settles for 15 s.
      await pinAt(visit, RELAY_PIN, 1, 17);
      await pinStays(visit, RELAY_PIN, 1, 660);
    });

    fact('rests on over a reset after a flood, and floods at once after a loss of power', async (visit) => {
      const { bench, board, link } = visit;
      waterRuns(visit);
      link.command({ kind: 'pump-on', longest: LONG });
      await pinAt(visit, RELAY_PIN, 1);
      await bench.unplug(bench.ports[0]);
      await pinAt(visit, RELAY_PIN, 0, LONG);
      await bench.pass(20);
      board.peer.reset(bench.timers.now());
      await bench.pass(1);
      await pinStays(visit, RELAY_PIN, 0, 180);
      board.powerOff();
      await bench.pass(1);
      board.powerOn();
      await bench.pass(1);
      // It settles for 15 s; nothing is known, and a flood may be doubled but not lost.
      await pinStays(visit, RELAY_PIN, 0, 13);
      await pinAt(visit, RELAY_PIN, 1, 5);
    });

    fact('tells what ran while nobody listened, from whom, for how long and how it went', async (visit) => {
      const { bench, board, link } = visit;
      waterRuns(visit);
      link.command({ kind: 'pump-on', longest: LONG });
      await pinAt(visit, RELAY_PIN, 1);
      const begunAt = bench.timers.now();
      await bench.pass(5);
      await bench.unplug(bench.ports[0]);
      await pinAt(visit, RELAY_PIN, 0, LONG);
      const ran = (bench.timers.now() - begunAt) / 1000;
      await bench.pass(20);
      await bench.plug(bench.ports[0], board.peer, SERIAL_NUMBER);
      await up(bench, link, 8);
      const kept = keptOf(visit);
      expect(kept).toMatchObject({ forgotten: 0, running: null, holdUntil: null });
      expect(kept?.runs).toEqual([
        expect.objectContaining({ begunBy: 'host', endedBy: 'board', verdict: 'confirmed' }),
      ]);
      for (const run of [kept?.runs[0], kept?.lastFlood]) {
        expect(Math.abs((run?.startedAt ?? 0) - begunAt)).toBeLessThan(2500);
        expect(Math.abs((run?.seconds ?? 0) - ran)).toBeLessThan(2);
      }
      // Told once.
      await bench.unplug(bench.ports[0]);
      await bench.pass(1);
      await bench.plug(bench.ports[0], board.peer, SERIAL_NUMBER);
      await up(bench, link, 8);
      expect(keptOf(visit)?.runs).toEqual([]);
    });
  });
};
