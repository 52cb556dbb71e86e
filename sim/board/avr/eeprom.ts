import { assert } from '../../../src/units/assertion.ts';
import type { EepromCells } from './eeprom-cells.ts';
import type { Machine } from './machine.ts';
import { EEPROM_BYTES, IO, VECTOR } from './registers.ts';

/** Asked before each byte; `cut` takes the power away while that byte is being written. */
export type BeforeEepromWrite = (address: number, value: number) => 'go on' | 'cut';

/** Bits of EECR. */
const READ = 0x01;
const WRITE = 0x02;
const MASTER = 0x04;
const ON_READY = 0x08;
const MODE = 0x30;
/** Ways of writing by EEPM1 and EEPM0, with their times (data sheet, "EEPROM Mode Bits"). */
const ERASE_AND_WRITE = 0x00;
const ERASE_ONLY = 0x10;
const WRITE_ONLY = 0x20;
const BOTH_CYCLES = 54_400;
const ONE_CYCLES = 28_800;
/** EEPE must follow EEMPE within these. */
const MASTER_CYCLES = 4;
/** The processor stands still for these. */
const READ_HALT_CYCLES = 4;
const WRITE_HALT_CYCLES = 2;
const ERASED = 0xff;

/** The way to the EEPROM (data sheet, "EEPROM Data Memory"). */
export const createEeprom = (
  machine: Machine,
  cells: EepromCells,
  hooks: { readonly before: BeforeEepromWrite; readonly cut: () => void },
): void => {
  const { cpu, events, interrupts, get, put, onRead, onWrite } = machine;
  let masterUntil = -1;

  const busy = (): boolean => cells.endsAt() !== null;
  const raise = (): void => {
    interrupts.put(VECTOR.EE_READY, (get(IO.EECR) & ON_READY) !== 0 && !busy());
  };
  const alarm = events.alarm(() => {
    cells.finish();
    raise();
  });
  const before = cells.endsAt();
  // A write that goes on over a reset is finished while the power lasts.
  if (before !== null) alarm.set(before);

  const address = (): number => ((get(IO.EEARH) << 8) | get(IO.EEARL)) % EEPROM_BYTES;
  const write = (): void => {
    const at = address();
    const mode = get(IO.EECR) & MODE;
    assert(mode !== MODE, 'not emulated: the reserved way of writing the EEPROM');
    const data = get(IO.EEDR);
    const value = mode === ERASE_ONLY ? ERASED : mode === WRITE_ONLY ? cells.read(at) & data : data;
    const endsAt = cpu.cycles + (mode === ERASE_AND_WRITE ? BOTH_CYCLES : ONE_CYCLES);
    cells.begin(at, value, endsAt);
    alarm.set(endsAt);
    if (hooks.before(at, value) === 'cut') hooks.cut();
    cpu.cycles += WRITE_HALT_CYCLES;
  };

  onRead(IO.EECR, () => {
    const master = cpu.cycles <= masterUntil ? MASTER : 0;
    return get(IO.EECR) | master | (busy() ? WRITE : 0);
  });
  onWrite(IO.EECR, (value) => {
    put(IO.EECR, value & (MODE | ON_READY));
    if ((value & WRITE) !== 0 && !busy() && cpu.cycles <= masterUntil) {
      masterUntil = -1;
      write();
    } else if ((value & MASTER) !== 0) masterUntil = cpu.cycles + MASTER_CYCLES;
    if ((value & READ) !== 0 && !busy()) {
      put(IO.EEDR, cells.read(address()));
      cpu.cycles += READ_HALT_CYCLES;
    }
    raise();
  });
};
