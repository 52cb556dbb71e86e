import { describe, expect, it } from 'vitest';
import { PIN_MODE } from '../../sim/board/firmata/bytes.ts';
import type { FirmataPeer } from '../../sim/board/firmata/peer.ts';
import { UNO_PIN_TABLE } from '../../sim/board/firmata/uno-pins.ts';
import { until, type OpenBench } from './bench.ts';
import {
  benchBoard,
  connected,
  drivingIn,
  linkOn,
  RELAY_PIN,
  SERIAL_NUMBER,
  up,
  wiringWith,
  type BenchBoard,
} from './bench-board.ts';

/** A receiver of positions, say: it talks by itself, and not Firmata. */
const talkative = (): { readonly device: FirmataPeer; readonly heard: number[] } => {
  const { peer } = benchBoard();
  const heard: number[] = [];
  const sentence = Buffer.from('$GPRMC,120000,A,3706.0,N,00800.0,W*6A\r\n', 'ascii');
  // Among much else it says what may pass for the version of a board.
  const line = Buffer.concat([sentence, Buffer.of(0xf9, 2, 5)]);
  return {
    heard,
    device: {
      ...peer,
      receive: (bytes) => {
        heard.push(...bytes);
      },
      take: () => line,
      nextDue: (now) => now + 500,
    },
  };
};

/** A0 to A5 are its last pins. */
const WITHOUT_A5 = UNO_PIN_TABLE.slice(0, -1);
const WITHOUT_OUTPUT_ON_RELAY_PIN = UNO_PIN_TABLE.map((spec, pin) =>
  pin === RELAY_PIN
    ? { ...spec, abilities: spec.abilities.filter(({ mode }) => mode !== PIN_MODE.output) }
    : spec,
);

/** A board that is plugged in first and must not be driven, and what is said of it. */
const STRANGERS = [
  {
    who: 'of another firmware name than the farm file wants',
    wiring: wiringWith({ identity: 'Our board' }),
    board: () => benchBoard({ firmwareName: 'Their board' }),
    says: /another board answers: "Their board", serial number 0042; the farm file wants "Our board"/,
  },
  {
    who: 'of another serial number than the farm file wants',
    wiring: wiringWith({ identity: '0007' }),
    board: () => benchBoard(),
    says: /another board answers: "Board under test", serial number 0042; the farm file wants "0007"/,
  },
  {
    who: 'without the pin of the tank level',
    wiring: wiringWith(),
    board: () => benchBoard({ pins: WITHOUT_A5 }),
    says: /the farm file wires board\.tankLevel to pin A5, which this board does not have for it/,
  },
  {
    who: 'whose relay pin cannot be an output',
    wiring: wiringWith(),
    board: () => benchBoard({ pins: WITHOUT_OUTPUT_ON_RELAY_PIN }),
    says: /the farm file wires board\.relay to pin 7, which this board does not have for it/,
  },
] as const;

const expectUndriven = (board: BenchBoard): void => {
  expect(drivingIn(board.heard)).toEqual([]);
  expect(board.driven.filter(([pin, level]) => pin === RELAY_PIN && level === 1)).toEqual([]);
};

export const strangerFacts = (name: string, openBench: OpenBench): void => {
  describe(`${name}: drives no stranger`, () => {
    it.concurrent.each(STRANGERS)(
      'refuses a board $who, drives no pin of it and says why',
      async ({ wiring, board, says }) => {
        const bench = await openBench();
        const stranger = board();
        await bench.plug(bench.ports[0], stranger.peer, SERIAL_NUMBER);
        const link = linkOn(bench, { wiring });
        const why = (): string => {
          const state = link.link();
          return state.kind === 'down' ? state.why : 'up';
        };
        await until(bench, 'it is refused in words', () => says.test(why()), 4);
        link.command({ kind: 'pump-off' });
        await bench.pass(2.5);
        expect(link.counts()).toMatchObject({ refusedCommands: 1 });
        expectUndriven(stranger);
        await link.close();
        await bench.end();
      },
    );

    it.concurrent.each([
      ['serial number', { serialNumber: '0007', firmwareName: 'Board under test' }],
      ['firmware name, where one has no serial number', { serialNumber: undefined, firmwareName: 'Other' }],
    ])('drives after one board no other %s', async (_, other) => {
      const bench = await openBench();
      const visit = await connected(bench);
      await bench.unplug(bench.ports[0]);
      const stranger = benchBoard({ firmwareName: other.firmwareName });
      await bench.plug(bench.ports[1], stranger.peer, other.serialNumber);
      const { link } = visit;
      await until(
        bench,
        'it is refused',
        () => JSON.stringify(link.link()).includes('this host was driving'),
        6,
      );
      const own = benchBoard();
      await bench.plug(bench.ports[0], own.peer, SERIAL_NUMBER);
      await up(bench, link, 8);
      expect(link.identity()?.line).toBe(bench.ports[0]);
      expectUndriven(stranger);
      await link.close();
      await bench.end();
    });

    it.concurrent(
      'writes no byte to a device that speaks no Firmata, and finds the board behind it',
      async () => {
        const bench = await openBench();
        const { device, heard } = talkative();
        await bench.plug(bench.ports[0], device);
        const board = benchBoard();
        await bench.plug(bench.ports[1], board.peer, SERIAL_NUMBER);
        const link = linkOn(bench);
        await up(bench, link, 12);
        expect([heard, link.identity()?.line]).toEqual([[], bench.ports[1]]);
        await link.close();
        await bench.end();
      },
    );
  });
};
