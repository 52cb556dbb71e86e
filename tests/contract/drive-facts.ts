import { describe, expect, it } from 'vitest';
import { secondsBetween } from '../../src/time/instant.ts';
import { seconds } from '../../src/units/quantity.ts';
import { until, type OpenBench } from './bench.ts';
import {
  BUTTON_PIN,
  BUZZER_PIN,
  drivingIn,
  LAMP_PIN,
  RELAY_PIN,
  SERIAL_NUMBER,
  timesDriven,
  wiringWith,
} from './bench-board.ts';
import { connected, factsOn, pinAt, pinStays, type Visit } from './visit.ts';

/** Runs that nobody waits out. */
const LONG = seconds(600);
/** A finger that stays so long holds the button, and for how long it is looked on. */
const LONG_PRESS_SECONDS = 3.5;

const pumpOn = ({ link }: Visit, longest = LONG): void => {
  link.command({ kind: 'pump-on', longest });
};
const pumpOff = ({ link }: Visit): void => {
  link.command({ kind: 'pump-off' });
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
        board: { ...bench.kind.says, serialNumber: SERIAL_NUMBER },
        line: bench.ports[0],
      });
      return Promise.resolve();
    });

    fact('has not pulled the relay through connect and for 2 s after it', async (visit) => {
      await pinStays(visit, RELAY_PIN, 0, 2);
      expect(timesDriven(visit.board, RELAY_PIN, 1)).toBe(0);
    });

    fact('pulls the relay at pump-on and lets go of it at pump-off', async (visit) => {
      pumpOn(visit);
      await pinAt(visit, RELAY_PIN, 1);
      await pinStays(visit, RELAY_PIN, 1, 2);
      pumpOff(visit);
      await pinAt(visit, RELAY_PIN, 0);
      await pinStays(visit, RELAY_PIN, 0, 1.5);
    });

    fact('ends a run of 3 s without another word: no later, and no sooner than it counts', async (visit) => {
      const { bench } = visit;
      const begunAt = bench.timers.now();
      pumpOn(visit, seconds(3));
      await pinAt(visit, RELAY_PIN, 1);
      await pinAt(visit, RELAY_PIN, 0, 5);
      expect(secondsBetween(begunAt, bench.timers.now())).toBeGreaterThanOrEqual(
        3 - bench.kind.runGrainSeconds,
      );
      await pinStays(visit, RELAY_PIN, 0, 1.5);
    });

    fact('counts the longest of a run anew at a second pump-on', async (visit) => {
      const { bench } = visit;
      pumpOn(visit, seconds(3));
      await bench.pass(1.5);
      pumpOn(visit, LONG);
      await pinStays(visit, RELAY_PIN, 1, 2.5);
      pumpOff(visit);
      await pinAt(visit, RELAY_PIN, 0);
    });

    for (const [part, pin, signals, other] of [
      ['buzzer', BUZZER_PIN, { buzzer: 'sounding', lamp: 'dark' }, LAMP_PIN],
      ['lamp', LAMP_PIN, { buzzer: 'silent', lamp: 'lit' }, BUZZER_PIN],
    ] as const)
      fact(`switches the ${part} on and off, alone`, async (visit) => {
        const { board, link } = visit;
        link.show(signals);
        await pinAt(visit, pin, 1);
        expect([board.levelOf(other), board.levelOf(RELAY_PIN)]).toEqual([0, 0]);
        link.show({ buzzer: 'silent', lamp: 'dark' });
        await pinAt(visit, pin, 0);
      });

    fact(
      'tells a press of 0.3 s as a short one, and one that lasts as a long one before the finger leaves',
      async (visit) => {
        const { bench, board, link } = visit;
        const { pressSeconds } = bench.kind;
        const press = async (level: 0 | 1, forSeconds: number): Promise<void> => {
          board.digital.set(BUTTON_PIN, level);
          bench.look();
          await bench.pass(forSeconds);
        };
        // On a real line it takes a moment until the level is known from which it is pressed.
        await press(1, pressSeconds);
        await press(0, 0.3);
        await press(1, pressSeconds);
        expect(link.presses()).toEqual(['short']);
        await press(0, LONG_PRESS_SECONDS + pressSeconds);
        // A board that keeps the plants has held the pump by itself, for its half hour.
        const [long] = link.presses();
        expect(long === 'long' || (typeof long === 'object' && long.heldSeconds > 1780)).toBe(true);
        await press(1, pressSeconds);
        expect(link.presses()).toEqual([]);
      },
    );

    fact('writes nothing more after close', async (visit) => {
      const { bench, board, link } = visit;
      pumpOn(visit);
      await pinAt(visit, RELAY_PIN, 1);
      await link.close();
      // What the host wrote last may still be under way.
      await bench.pass(0.5);
      const { length } = board.heard;
      link.alive('unknown');
      link.command({ kind: 'pump-on', longest: LONG });
      await bench.pass(2.5);
      expect(board.heard.slice(length)).toEqual([]);
      expect([bench.staleBytes(), link.link().kind]).toEqual([0, 'down']);
    });
  });

  describe(`${name}: a relay`, () => {
    it.concurrent.each(COILS)(
      'that $energised pulls, with $deadBoard, stands at $rests while the pump rests, at $runs while it runs',
      async ({ energised, deadBoard, rests, runs }) => {
        const bench = await openBench();
        const wiring = wiringWith({ relay: { pin: RELAY_PIN, energised } });
        const visit = await connected(bench, { deadBoard, wiring });
        // On a stock board without current while the host says nothing, whatever the pump then does.
        const letGo = energised === 'high' ? 0 : 1;
        const alone = bench.kind.keeper === 'none' ? letGo : rests;
        // The link is up when the host has spoken; on a real line the board hears it a moment later.
        if (bench.kind.keeper === 'none')
          await until(bench, 'the board was told', () => drivingIn(visit.board.heard).length > 0, 1);
        await pinAt(visit, RELAY_PIN, alone);
        await pinStays(visit, RELAY_PIN, alone, 1);
        pumpOff(visit);
        await pinAt(visit, RELAY_PIN, rests);
        pumpOn(visit);
        await pinAt(visit, RELAY_PIN, runs);
        pumpOff(visit);
        await pinAt(visit, RELAY_PIN, rests);
        await visit.link.close();
        await pinAt(visit, RELAY_PIN, alone);
        await bench.end();
      },
    );
  });
};
