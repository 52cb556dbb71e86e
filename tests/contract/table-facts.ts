import { describe, expect } from 'vitest';
import { crc16 } from '../../firmware-host/devices/keeper/crc.ts';
import { setupBlock } from '../../src/farm/keeper-setup.ts';
import { tableBytes } from '../../src/plan/keeper-table.ts';
import { flashTable } from '../keeper/image.ts';
import { until, type OpenBench } from './bench.ts';
import { benchFarm, SERIAL_NUMBER, wiringWith } from './bench-board.ts';
import type { EmulatedBench } from './emulated-bench.ts';
import { factsOn, up } from './visit.ts';

/** Both slots; behind them the board counts its starts. */
const SLOT_BYTES = 192;

/** A board that floods by a table of its host's when that is gone. */
export const tableFacts = (name: string, openBench: OpenBench<EmulatedBench>): void => {
  describe(`${name}: takes a table`, () => {
    const fact = factsOn(openBench);
    const table = flashTable(benchFarm());
    const wanted = tableBytes({ ...table, returnLagSeconds: table.returnLagSeconds + 60 });
    const wishes = { keeper: { setup: setupBlock(benchFarm(), wiringWith()), table: () => wanted } };

    fact(
      'that differs from its own, shows it, keeps it over a loss of power, and is not sent it twice',
      async (visit) => {
        const { bench, board, link } = visit;
        const shown = (): unknown => link.keeperState()?.status?.table;
        await until(bench, 'it is in force', () => link.keeperState()?.table.kind === 'in-force', 5);
        expect(shown()).toMatchObject({ crc: crc16(wanted), slot: 0 });
        const kept = Buffer.from(board.eeprom());
        expect(kept.includes(Buffer.from(wanted))).toBe(true);
        await bench.unplug(bench.ports[0]);
        board.powerOff();
        await bench.pass(1);
        board.powerOn();
        await bench.plug(bench.ports[0], board.peer, SERIAL_NUMBER);
        await up(bench, link, 8);
        await bench.pass(5);
        expect(shown()).toMatchObject({ crc: crc16(wanted), slot: 0 });
        expect(Buffer.from(board.eeprom()).subarray(0, SLOT_BYTES)).toEqual(kept.subarray(0, SLOT_BYTES));
      },
      wishes,
    );

    fact('only from a host that wants one: else it goes by that of its flash', async ({ bench, link }) => {
      await bench.pass(5);
      const shown = link.keeperState()?.status?.table;
      expect(shown).toMatchObject({ crc: crc16(tableBytes(table)), slot: 'flash' });
    });
  });
};
