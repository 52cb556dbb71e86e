import { describe, expect, it } from 'vitest';
import { secondsBetween } from '../../src/time/instant.ts';
import { seconds } from '../../src/units/quantity.ts';
import { until, type OpenBench } from './bench.ts';
import {
  connected,
  drivingIn,
  factsOn,
  RELAY_PIN,
  SERIAL_NUMBER,
  timesDriven,
  wiringWith,
  type Visit,
} from './bench-board.ts';

/** Runs that nobody waits out. */
const LONG = seconds(600);
/** Set pin mode and set digital pin value of the Firmata protocol, as a spoilt byte may make them. */
const [SET_PIN_MODE, SET_PIN_VALUE] = [0xf4, 0xf5] as const;
const INPUT = 0;

const pumpOn = ({ link }: Visit, longest = LONG): void => {
  link.command({ kind: 'pump-on', longest });
};
const pumpOff = ({ link }: Visit): void => {
  link.command({ kind: 'pump-off' });
};

/** Waits until the relay pin stands at this level; a command is said within a second. */
const relayAt = ({ bench, board }: Visit, level: 0 | 1, secondsMax = 2): Promise<void> =>
  until(bench, `the relay pin at ${level}`, () => board.levelOf(RELAY_PIN) === level, secondsMax);

/** Waits and sees the relay pin at this level all the time. */
const relayStays = async ({ bench, board }: Visit, level: 0 | 1, forSeconds: number): Promise<void> => {
  const changes = board.driven.length;
  await bench.pass(forSeconds);
  const ofRelay = board.driven.slice(changes).filter(([pin]) => pin === RELAY_PIN);
  expect([ofRelay, board.levelOf(RELAY_PIN)]).toEqual([[], level]);
};

/** How a relay is wired, and the levels at its pin while the pump rests and runs. */
const COILS = [
  { energised: 'high', deadBoard: 'pump-stops', rests: 0, runs: 1 },
  { energised: 'high', deadBoard: 'plain-timer', rests: 0, runs: 1 },
  { energised: 'low', deadBoard: 'pump-stops', rests: 1, runs: 0 },
  // On a normally closed contact the coil is pulled to stop the pump.
  { energised: 'high', deadBoard: 'pump-runs', rests: 1, runs: 0 },
  { energised: 'low', deadBoard: 'pump-runs', rests: 0, runs: 1 },
] as const;

export const driveFacts = (name: string, openBench: OpenBench): void => {
  describe(`${name}: drives what hangs on it`, () => {
    const fact = factsOn(openBench);

    fact('tells who the board is, and on which line', ({ bench, link }) => {
      expect(link.identity()).toEqual({
        board: {
          firmwareName: 'Board under test',
          firmwareVersion: '3.4',
          protocolVersion: '2.8',
          serialNumber: SERIAL_NUMBER,
        },
        line: bench.ports[0],
      });
      return Promise.resolve();
    });

    fact('has not pulled the relay through connect and for 2 s after it', async (visit) => {
      await relayStays(visit, 0, 2);
      expect(timesDriven(visit.board, RELAY_PIN, 1)).toBe(0);
    });

    fact('pulls the relay at pump-on and lets go of it at pump-off', async (visit) => {
      pumpOn(visit);
      await relayAt(visit, 1);
      await relayStays(visit, 1, 2);
      pumpOff(visit);
      await relayAt(visit, 0);
      await relayStays(visit, 0, 1.5);
    });

    fact('ends a run of 3 s after 3 s without another word', async (visit) => {
      const { bench } = visit;
      const begunAt = bench.timers.now();
      pumpOn(visit, seconds(3));
      await relayAt(visit, 1);
      await relayAt(visit, 0, 5);
      expect(secondsBetween(begunAt, bench.timers.now())).toBeGreaterThanOrEqual(3);
      await relayStays(visit, 0, 1.5);
    });

    fact('counts the longest of a run anew at a second pump-on', async (visit) => {
      const { bench } = visit;
      pumpOn(visit, seconds(1));
      await bench.pass(0.5);
      pumpOn(visit, LONG);
      await relayStays(visit, 1, 1.5);
      pumpOff(visit);
      await relayAt(visit, 0);
    });

    for (const [does, bytes] of [
      ['makes the relay pin an input', [SET_PIN_MODE, RELAY_PIN, INPUT]],
      ['turns the level of a running pump', [SET_PIN_VALUE, RELAY_PIN, 0]],
    ] as const)
      fact(`pulls the relay again within 2 s when a spoilt byte ${does}`, async (visit) => {
        const { bench } = visit;
        pumpOn(visit);
        await relayAt(visit, 1);
        visit.board.peer.receive(Uint8Array.from(bytes), bench.timers.now());
        expect(visit.board.levelOf(RELAY_PIN)).not.toBe(1);
        await relayAt(visit, 1);
        pumpOff(visit);
        await relayAt(visit, 0);
      });

    fact('lets go of the relay again within 2 s when a spoilt byte has pulled it', async (visit) => {
      const { bench } = visit;
      visit.board.peer.receive(Uint8Array.of(SET_PIN_VALUE, RELAY_PIN, 1), bench.timers.now());
      expect(visit.board.levelOf(RELAY_PIN)).toBe(1);
      await relayAt(visit, 0);
    });

    for (const [part, pin, signals, other] of [
      ['buzzer', 5, { buzzer: 'sounding', lamp: 'dark' }, 6],
      ['lamp', 6, { buzzer: 'silent', lamp: 'lit' }, 5],
    ] as const)
      fact(`switches the ${part} on and off, alone`, async (visit) => {
        const { bench, board, link } = visit;
        link.show(signals);
        await until(bench, 'it is on', () => board.levelOf(pin) === 1, 2);
        expect([board.levelOf(other), board.levelOf(RELAY_PIN)]).toEqual([0, 0]);
        link.show({ buzzer: 'silent', lamp: 'dark' });
        await until(bench, 'it is off', () => board.levelOf(pin) === 0, 2);
      });

    fact(
      'tells a press of 0.3 s as a short one and one of 4 s as a long one before the finger leaves',
      async (visit) => {
        const { bench, board, link } = visit;
        const press = async (level: 0 | 1, forSeconds: number): Promise<void> => {
          board.digital.set(8, level);
          bench.look();
          await bench.pass(forSeconds);
        };
        await press(0, 0.3);
        await press(1, 0.5);
        expect(link.presses()).toEqual(['short']);
        await press(0, 4);
        expect(link.presses()).toEqual(['long']);
        await press(1, 0.5);
        expect(link.presses()).toEqual([]);
      },
    );

    fact('lets go of the relay at close and writes nothing more', async (visit) => {
      const { bench, board, link } = visit;
      pumpOn(visit);
      await relayAt(visit, 1);
      await link.close();
      await relayAt(visit, 0);
      const { length } = board.heard;
      link.command({ kind: 'pump-on', longest: LONG });
      await bench.pass(2.5);
      expect(board.heard.slice(length)).toEqual([]);
      expect([bench.staleBytes(), link.link().kind]).toEqual([0, 'down']);
    });
  });

  describe(`${name}: a relay`, () => {
    it.concurrent.each(COILS)(
      'that $energised pulls, with $deadBoard, stands at $rests while the pump rests, at $runs while it runs, and is let go at first and at last',
      async ({ energised, deadBoard, rests, runs }) => {
        const bench = await openBench();
        const wiring = wiringWith({ relay: { pin: RELAY_PIN, energised } });
        const visit = await connected(bench, { deadBoard, wiring });
        // Without current, whatever the pump then does.
        const letGo = energised === 'high' ? 0 : 1;
        // The link is up when the host has spoken; on a real line the board hears it a moment later.
        await until(bench, 'the board was told', () => drivingIn(visit.board.heard).length > 0, 1);
        await relayAt(visit, letGo);
        await relayStays(visit, letGo, 1);
        pumpOff(visit);
        await relayAt(visit, rests);
        pumpOn(visit);
        await relayAt(visit, runs);
        pumpOff(visit);
        await relayAt(visit, rests);
        await visit.link.close();
        await relayAt(visit, letGo);
        await bench.end();
      },
    );
  });
};
