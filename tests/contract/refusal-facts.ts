import { describe, expect, it } from 'vitest';
import { seconds } from '../../src/units/quantity.ts';
import { until, type OpenBench } from './bench.ts';
import { benchFarm, RELAY_PIN, SERIAL_NUMBER, wiringWith, type BoardAsked } from './bench-board.ts';
import type { EmulatedBench, KeeperBoard } from './emulated-bench.ts';
import { claimsOf, speakingMajor } from './keeper-frames.ts';
import { linkOn } from './visit.ts';

const LONG = seconds(600);
/** Settling, the shortest off and the start of the bootloader. */
const FLOODS_WITHIN_SECONDS = 20;

interface Refused {
  readonly who: string;
  readonly asked: BoardAsked;
  readonly as?: (board: KeeperBoard) => KeeperBoard;
  readonly relayPin?: number;
  /** The level at which its pump runs. */
  readonly runs?: 0 | 1;
  /** What differs, and then what to change. */
  readonly says: RegExp;
}

const REFUSED: readonly Refused[] = [
  {
    who: 'flashed for another relay pin',
    asked: { wiring: wiringWith({ relay: { pin: 11 } }) },
    relayPin: 11,
    says: /relay on pin 11; by the farm file it is on pin 7\. What to do: change board\.relay\.pin, or flash the board again/,
  },
  {
    who: 'flashed for a relay that the other level pulls',
    asked: { wiring: wiringWith({ relay: { pin: RELAY_PIN, energised: 'low' } }) },
    runs: 0,
    says: /What to do: change board\.relay\.energised, or flash the board again/,
  },
  {
    who: 'flashed for another choice of what a dead board does',
    asked: { farm: benchFarm({ deadBoard: 'pump-runs' }) },
    runs: 0,
    says: /pump-runs.*by the farm file.*pump-stops.*What to do: change deadBoard, or flash the board again/,
  },
  {
    who: 'flashed for a shorter longest run',
    asked: { farm: benchFarm({ pump: { ...benchFarm().pump, longestOnMinutes: 30 } }) },
    says: /1800 s.*by the farm file.*2400 s.*What to do: change pump\.longestOnMinutes, or flash the board again/,
  },
  {
    who: 'flashed for another shortest off',
    asked: { farm: benchFarm({ pump: { ...benchFarm().pump, shortestOffSeconds: 12 } }) },
    says: /12 s.*by the farm file.*10 s.*What to do: change pump\.shortestOffSeconds, or flash the board again/,
  },
  {
    who: 'whose firmware speaks protocol 2',
    asked: {},
    as: (board) => speakingMajor(board, 2),
    says: /speaks keeper protocol 2\.0, this program 1: flash the board with this program .*, or update the program/,
  },
];

/** Boards that this host must not drive keep their plants, and their line. */
export const refusalFacts = (name: string, openBench: OpenBench<EmulatedBench>): void => {
  describe(`${name}: is left to itself`, () => {
    it.concurrent.each(REFUSED)('$who: never claimed, told in words, and floods by itself', async (row) => {
      const {
        asked,
        as = (board: KeeperBoard): KeeperBoard => board,
        relayPin = RELAY_PIN,
        runs = 1,
        says,
      } = row;
      const bench = await openBench();
      const board = as(bench.newBoard(asked));
      await bench.plug(bench.ports[0], board.peer, SERIAL_NUMBER);
      const link = linkOn(bench);
      const why = (): string => {
        const state = link.link();
        return state.kind === 'down' ? state.why : 'up';
      };
      await until(bench, 'it is refused in words', () => why().includes('flash the board'), 5);
      expect(why()).toMatch(says);
      link.command({ kind: 'pump-on', longest: LONG });
      await until(bench, 'it floods', () => board.levelOf(relayPin) === runs, FLOODS_WITHIN_SECONDS);
      await bench.pass(70);
      expect(board.levelOf(relayPin)).toBe(runs);
      expect([claimsOf(board), link.counts()]).toEqual([
        0,
        expect.objectContaining({ refusedCommands: 1, connections: 1 }),
      ]);
      expect([link.link(), why()]).toEqual([
        expect.objectContaining({ kind: 'down', keeper: 'keeps' }),
        expect.stringMatching(says),
      ]);
      await link.close();
      expect(bench.staleBytes()).toBe(0);
      await bench.end();
    });
  });
};
