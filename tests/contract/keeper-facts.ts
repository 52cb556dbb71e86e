import { describe, expect } from 'vitest';
import { sysexOf } from '../../firmware-host/devices/keeper/frame.ts';
import { HOST_TYPE } from '../../firmware-host/devices/keeper/host-message.ts';
import { seconds } from '../../src/units/quantity.ts';
import type { OpenBench } from './bench.ts';
import {
  BUTTON_PIN,
  BUZZER_PIN,
  LAMP_PIN,
  RELAY_PIN,
  SERIAL_NUMBER,
  SHORTEST_OFF_SECONDS,
} from './bench-board.ts';
import type { EmulatedBench } from './emulated-bench.ts';
import { framesIn } from './keeper-frames.ts';
import { down, factsOn, pinAt, pinStays, up, type Visit } from './visit.ts';

const LONG = seconds(600);
const OUTPUTS = [RELAY_PIN, BUZZER_PIN, LAMP_PIN] as const;

/** All that Firmata knows to make a pin an output or an input, high or low: Firmata protocol 2.7, `protocol.md`. */
const WRITES: readonly (readonly number[])[] = [
  ...OUTPUTS.flatMap((pin) => [
    [0xf4, pin, 1],
    [0xf5, pin, 1],
    [0xf5, pin, 0],
    [0xe0 | pin, 0x7f, 1],
    [0xf0, 0x6f, pin, 0x7f, 1, 0xf7],
    [0xf4, pin, 3],
    [0xf4, pin, 0],
    [0xf4, pin, 11],
  ]),
  [0x90, 0x7f, 1],
  [0x90, 0, 0],
  [0xff],
];

const pressed = async ({ bench, board }: Visit, forSeconds: number): Promise<void> => {
  board.digital.set(BUTTON_PIN, 0);
  bench.look();
  await bench.pass(forSeconds);
  board.digital.set(BUTTON_PIN, 1);
  bench.look();
  await bench.pass(bench.kind.pressSeconds);
};

const replugged = async ({ bench, board, link }: Visit, awaySeconds: number): Promise<void> => {
  await bench.unplug(bench.ports[0]);
  await bench.pass(awaySeconds);
  await bench.plug(bench.ports[0], board.peer, SERIAL_NUMBER);
  await up(bench, link, 8);
};

/** A board that drives its pump by itself, and for a host that owns it. */
export const keeperFacts = (name: string, openBench: OpenBench<EmulatedBench>): void => {
  describe(`${name}: keeps its outputs to itself`, () => {
    const fact = factsOn(openBench);

    const asked: string[] = [];
    fact(
      'is never asked for the power of its USB port, which would end its floods and its hold: a line that dies and 15 min more',
      async ({ bench, link }) => {
        bench.stall(bench.ports[0]);
        await down({ bench, link }, 30);
        await bench.pass(900);
        expect(asked).toEqual([]);
      },
      {
        power: {
          heard: () => undefined,
          silent: (line) => void asked.push(line),
          stranger: () => undefined,
          close: () => Promise.resolve(),
        },
      },
    );

    for (const [state, level] of [
      ['rests', 0],
      ['runs', 1],
    ] as const)
      fact(
        `moves no output for ${WRITES.length} plain writes of Firmata while the pump ${state}`,
        async (visit) => {
          const { bench, board, link } = visit;
          if (level === 1) link.command({ kind: 'pump-on', longest: LONG });
          await pinAt(visit, RELAY_PIN, level);
          const changes = board.driven.length;
          for (const bytes of WRITES) {
            board.peer.receive(Uint8Array.from(bytes), bench.timers.now());
            await bench.pass(0.1);
          }
          const since = board.driven
            .slice(changes)
            .filter(([pin]) => OUTPUTS.some((output) => output === pin));
          expect([since, board.levelOf(RELAY_PIN)]).toEqual([[], level]);
          // It heard them all, and goes on.
          expect(board.peer.tally().overrunBytes).toBe(0);
          link.command({ kind: 'pump-off' });
          await pinAt(visit, RELAY_PIN, 0);
        },
      );

    fact('shows signals with the next completed tick, and none without', async (visit) => {
      const { bench, link } = visit;
      link.stopTicking();
      link.show({ buzzer: 'sounding', lamp: 'lit' });
      await pinStays(visit, BUZZER_PIN, 0, 3);
      await pinStays(visit, LAMP_PIN, 0, 1);
      link.alive('unknown');
      await bench.pass(0.2);
      await pinStays(visit, BUZZER_PIN, 1, 0.5);
      await pinStays(visit, LAMP_PIN, 1, 0.5);
    });

    fact('does nothing for words of an earlier connection that come again', async (visit) => {
      const { bench, board, link } = visit;
      link.command({ kind: 'pump-on', longest: LONG });
      await pinAt(visit, RELAY_PIN, 1);
      link.command({ kind: 'pump-off' });
      await pinAt(visit, RELAY_PIN, 0);
      const said = framesIn(board.heard);
      await replugged(visit, 1);
      await bench.pass(SHORTEST_OFF_SECONDS + 1);
      const changes = board.driven.length;
      for (const frame of said) {
        board.peer.receive(sysexOf(frame), bench.timers.now());
        await bench.pass(0.05);
      }
      await bench.pass(2);
      expect(said.filter(({ type }) => type === HOST_TYPE.pump).length).toBeGreaterThanOrEqual(2);
      expect(board.driven.slice(changes).filter(([pin]) => pin === RELAY_PIN)).toEqual([]);
      expect(link.link().kind).toBe('up');
    });
  });

  describe(`${name}: tells presses and holds`, () => {
    const fact = factsOn(openBench);

    fact('tells each of 3 presses once, and none of them again on the next connection', async (visit) => {
      const { bench, link } = visit;
      for (let time = 0; time < 3; time += 1) await pressed(visit, 0.3);
      expect(link.presses()).toEqual(['short', 'short', 'short']);
      await bench.pass(3);
      await replugged(visit, 1);
      await bench.pass(3);
      expect(link.presses()).toEqual([]);
    });

    fact('floods for a press while no host is there, and does not tell the next one of it', async (visit) => {
      const { bench, link } = visit;
      // What is owed after power-on is had first.
      link.command({ kind: 'pump-on', longest: LONG });
      await pinAt(visit, RELAY_PIN, 1);
      await bench.unplug(bench.ports[0]);
      await pinAt(visit, RELAY_PIN, 0, 610);
      await bench.pass(SHORTEST_OFF_SECONDS + 1);
      await pinStays(visit, RELAY_PIN, 0, 10);
      await pressed(visit, 0.3);
      await pinAt(visit, RELAY_PIN, 1);
      await replugged(visit, 1);
      await bench.pass(3);
      expect(link.presses()).toEqual([]);
    });

    fact(
      'stops for a hold, holds on without its host, and warns 10 s before it floods again',
      async (visit) => {
        const { bench, board, link } = visit;
        link.command({ kind: 'pump-on', longest: LONG });
        await pinAt(visit, RELAY_PIN, 1);
        link.command({ kind: 'hold', longest: seconds(100) });
        await pinAt(visit, RELAY_PIN, 0);
        await bench.unplug(bench.ports[0]);
        // A flood is owed: but for the hold it would run now.
        await pinStays(visit, RELAY_PIN, 0, 85);
        await pinStays(visit, BUZZER_PIN, 0, 2);
        await pinAt(visit, BUZZER_PIN, 1, 5);
        const changes = board.driven.length;
        await pinStays(visit, BUZZER_PIN, 1, 8.5);
        await pinAt(visit, RELAY_PIN, 1, 3);
        expect(board.driven.slice(changes).filter(([pin]) => pin === RELAY_PIN)).toEqual([[RELAY_PIN, 1]]);
      },
    );

    fact('tells the next connection of its hold, starts nothing in it, and is released', async (visit) => {
      const { bench, link } = visit;
      link.command({ kind: 'hold', longest: seconds(900) });
      const end = bench.timers.now() + 900_000;
      await bench.pass(2);
      await replugged(visit, 30);
      const state = link.link();
      const holdUntil = state.kind === 'up' ? (state.kept?.holdUntil ?? 0) : 0;
      expect(Math.abs(holdUntil - end)).toBeLessThan(3000);
      link.command({ kind: 'pump-on', longest: LONG });
      await pinStays(visit, RELAY_PIN, 0, SHORTEST_OFF_SECONDS + 5);
      link.command({ kind: 'release' });
      await bench.pass(2);
      link.command({ kind: 'pump-on', longest: LONG });
      // For ten seconds the buzzer warns whoever is at the bench; what is asked for meanwhile comes after it.
      await pinStays(visit, RELAY_PIN, 0, 6);
      expect(visit.board.levelOf(BUZZER_PIN)).toBe(1);
      await pinAt(visit, RELAY_PIN, 1, 5);
    });
  });
};
