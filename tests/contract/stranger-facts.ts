import { describe, expect, it } from 'vitest';
import type { BoardPeer } from '../../sim/board/board-peer.ts';
import type { Wiring } from '../../src/farm/farm.ts';
import { until, type OpenBench } from './bench.ts';
import {
  drivingIn,
  RELAY_PIN,
  SERIAL_NUMBER,
  stockBoard,
  wiringWith,
  type BenchBoard,
  type BoardKind,
} from './bench-board.ts';
import { connected, linkOn, up } from './visit.ts';

/** A receiver of positions, say: it talks by itself, and not Firmata. */
const talkative = (): { readonly device: BoardPeer; readonly heard: number[] } => {
  const { peer } = stockBoard();
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

/** A board that is plugged in first and must not be driven, and what is said of it. */
interface Stranger {
  readonly who: string;
  readonly wiring: Wiring;
  readonly board?: () => BenchBoard;
  readonly says: RegExp;
}

const expectUndriven = (board: BenchBoard): void => {
  expect(drivingIn(board.heard)).toEqual([]);
  expect(board.driven.filter(([pin, level]) => pin === RELAY_PIN && level === 1)).toEqual([]);
};

export const refusesStrangers = (
  name: string,
  openBench: OpenBench,
  strangers: readonly Stranger[],
): void => {
  describe(`${name}: refuses`, () => {
    it.concurrent.each(strangers)(
      'a board $who, drives no pin of it and says why',
      async ({ wiring, board, says }) => {
        const bench = await openBench();
        const stranger = board?.() ?? bench.newBoard({ wiring });
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
  });
};

/** Of boards that call their firmware so. */
const strangersNamed = (own: string): readonly Stranger[] => [
  {
    who: 'that is called otherwise than the farm file wants',
    wiring: wiringWith({ identity: 'Our board' }),
    says: new RegExp(
      `another board answers: "${own}", serial number 0042; the farm file wants "Our board"`,
      'u',
    ),
  },
  {
    who: 'of another serial number than the farm file wants',
    wiring: wiringWith({ identity: '0007' }),
    says: new RegExp(`another board answers: "${own}", serial number 0042; the farm file wants "0007"`, 'u'),
  },
];

export const strangerFacts = (name: string, openBench: OpenBench, kind: BoardKind): void => {
  refusesStrangers(name, openBench, strangersNamed(kind.says.firmwareName));

  describe(`${name}: drives no stranger`, () => {
    it.concurrent.each([
      ['serial number', { serialNumber: '0007', firmwareName: kind.says.firmwareName }],
      ['firmware name, where one has no serial number', { serialNumber: undefined, firmwareName: 'Other' }],
    ])('drives after one board no other %s', async (_, other) => {
      const bench = await openBench();
      const visit = await connected(bench);
      await bench.unplug(bench.ports[0]);
      const stranger =
        other.firmwareName === kind.says.firmwareName
          ? bench.newBoard()
          : stockBoard({ firmwareName: other.firmwareName });
      await bench.plug(bench.ports[1], stranger.peer, other.serialNumber);
      const { link } = visit;
      await until(
        bench,
        'it is refused',
        () => JSON.stringify(link.link()).includes('this host was driving'),
        6,
      );
      const own = bench.newBoard();
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
        const board = bench.newBoard();
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
