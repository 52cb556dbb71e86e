import { readdirSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seconds } from '../../src/units/quantity.ts';
import type { BoardLink } from '../../firmware-host/devices/board-link.ts';
import { until, type Bench } from './bench.ts';
import { messagesOf, RELAY_PIN, SERIAL_NUMBER, timesDriven, type BenchBoard } from './bench-board.ts';
import { linkOn, up } from './visit.ts';
import { serialBench } from './serial-bench.ts';

const CYCLES = 50;
/** Of the boards here, so that a cycle takes three seconds. */
const BOOT_MILLIS = 20;
/** A pipe or two that a child of the cycle before has not let go of yet. */
const OPEN_MORE_MAX = 3;

const openFiles = (): number => readdirSync('/proc/self/fd').length;

/** One life on the cable, as the board saw it. */
interface Life {
  readonly board: BenchBoard;
  /** How often the relay was pulled before anybody asked for it on this connection. */
  readonly pulledUnasked: number;
  readonly openFiles: number;
}

describe(`${CYCLES} times a serial line is lost and found`, () => {
  let bench: Bench;
  let link: BoardLink;
  const lives: Life[] = [];

  beforeAll(async () => {
    bench = await serialBench();
    link = linkOn(bench);
    for (let cycle = 0; cycle < CYCLES; cycle += 1) {
      const port = bench.ports[cycle % 3 === 0 ? 1 : 0];
      const board = bench.newBoard({ bootMillis: BOOT_MILLIS });
      await bench.plug(port, board.peer, SERIAL_NUMBER);
      await up(bench, link, 10);
      const pulledUnasked = timesDriven(board, RELAY_PIN, 1);
      link.command({ kind: 'pump-on', longest: seconds(600) });
      await until(bench, 'the pump runs', () => board.levelOf(RELAY_PIN) === 1, 3);
      lives.push({ board, pulledUnasked, openFiles: openFiles() });
      // Pulled with the pump on, and asked for again into the void.
      await bench.unplug(port);
      link.command({ kind: 'pump-on', longest: seconds(600) });
      await until(bench, 'the link is down', () => link.link().kind === 'down', 2);
      link.command({ kind: 'pump-on', longest: seconds(600) });
    }
  }, 300_000);
  afterAll(async () => {
    await link.close();
    await bench.end();
  });

  it('reaches every board anew and pulls no relay before it is asked to on that connection', () => {
    expect(lives.map(({ pulledUnasked }) => pulledUnasked)).toEqual(Array<number>(CYCLES).fill(0));
    expect(link.counts().connections).toBeGreaterThanOrEqual(CYCLES);
  });

  it('begins every connection with questions about version and firmware alone', () => {
    for (const { board } of lives) {
      const kinds = messagesOf(board.heard).map(({ kind }) => kind);
      const asks = kinds.findIndex((kind) => kind !== 'version-query' && kind !== 'firmware-query');
      expect(['sampling-interval', 'capability-query']).toContain(kinds[asks]);
    }
  });

  it('writes nothing to a line that was lost, and counts each command into it as refused', () => {
    expect(bench.staleBytes()).toBe(0);
    expect(link.counts().refusedCommands).toBeGreaterThanOrEqual(CYCLES);
  });

  it('has no more files open after the last cycle than after the tenth', () => {
    const [tenth, last] = [lives[9]!.openFiles, lives.at(-1)!.openFiles];
    expect(last).toBeLessThanOrEqual(tenth + OPEN_MORE_MAX);
  });
});
