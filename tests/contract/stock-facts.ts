import { describe, expect } from 'vitest';
import { PIN_MODE } from '../../sim/board/firmata/bytes.ts';
import { UNO_PIN_TABLE } from '../../sim/board/firmata/uno-pins.ts';
import { seconds } from '../../src/units/quantity.ts';
import type { OpenBench } from './bench.ts';
import { RELAY_PIN, stockBoard, wiringWith } from './bench-board.ts';
import { refusesStrangers } from './stranger-facts.ts';
import { down, factsOn, pinAt } from './visit.ts';

const LONG = seconds(600);
/** Set pin mode and set digital pin value of the Firmata protocol, as a spoilt byte may make them. */
const [SET_PIN_MODE, SET_PIN_VALUE] = [0xf4, 0xf5] as const;

/** A0 to A5 are its last pins. */
const WITHOUT_A5 = UNO_PIN_TABLE.slice(0, -1);
const WITHOUT_OUTPUT_ON_RELAY_PIN = UNO_PIN_TABLE.map((spec, pin) =>
  pin === RELAY_PIN
    ? { ...spec, abilities: spec.abilities.filter(({ mode }) => mode !== PIN_MODE.output) }
    : spec,
);

/** Of boards whose pump Firmata itself drives, and that have power from their cable alone. */
export const stockFacts = (name: string, openBench: OpenBench): void => {
  describe(`${name}: has stock firmware`, () => {
    const fact = factsOn(openBench);

    for (const [does, bytes] of [
      ['makes the relay pin an input', [SET_PIN_MODE, RELAY_PIN, PIN_MODE.input]],
      ['turns the level of a running pump', [SET_PIN_VALUE, RELAY_PIN, 0]],
    ] as const)
      fact(`pulls the relay again within 2 s when a spoilt byte ${does}`, async (visit) => {
        const { bench, board, link } = visit;
        link.command({ kind: 'pump-on', longest: LONG });
        await pinAt(visit, RELAY_PIN, 1);
        board.peer.receive(Uint8Array.from(bytes), bench.timers.now());
        expect(board.levelOf(RELAY_PIN)).not.toBe(1);
        await pinAt(visit, RELAY_PIN, 1);
        link.command({ kind: 'pump-off' });
        await pinAt(visit, RELAY_PIN, 0);
      });

    fact('lets go of the relay again within 2 s when a spoilt byte has pulled it', async (visit) => {
      const { bench, board } = visit;
      board.peer.receive(Uint8Array.of(SET_PIN_VALUE, RELAY_PIN, 1), bench.timers.now());
      expect(board.levelOf(RELAY_PIN)).toBe(1);
      await pinAt(visit, RELAY_PIN, 0);
    });

    fact('lets go of the relay at close', async (visit) => {
      visit.link.command({ kind: 'pump-on', longest: LONG });
      await pinAt(visit, RELAY_PIN, 1);
      await visit.link.close();
      await pinAt(visit, RELAY_PIN, 0);
    });

    fact('lets the relay go with its power when the cable is pulled', async (visit) => {
      const { bench, board, link } = visit;
      link.command({ kind: 'pump-on', longest: LONG });
      await pinAt(visit, RELAY_PIN, 1);
      await bench.unplug(bench.ports[0]);
      await down(visit, 1);
      expect(board.levelOf(RELAY_PIN)).toBe('floating');
      // Nobody keeps its plants.
      expect(link.link()).not.toHaveProperty('keeper');
    });
  });

  refusesStrangers(name, openBench, [
    {
      who: 'without the pin of the tank level',
      wiring: wiringWith(),
      board: () => stockBoard({ pins: WITHOUT_A5 }),
      says: /the farm file wires board\.tankLevel to pin A5, which this board does not have for it/,
    },
    {
      who: 'whose relay pin cannot be an output',
      wiring: wiringWith(),
      board: () => stockBoard({ pins: WITHOUT_OUTPUT_ON_RELAY_PIN }),
      says: /the farm file wires board\.relay to pin 7, which this board does not have for it/,
    },
    {
      who: 'of another firmware name than the farm file wants',
      wiring: wiringWith({ identity: 'Our board' }),
      board: () => stockBoard({ firmwareName: 'Their board' }),
      says: /another board answers: "Their board", serial number 0042; the farm file wants "Our board"/,
    },
  ]);
};
