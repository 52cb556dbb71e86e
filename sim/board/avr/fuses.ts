import type { Machine } from './machine.ts';
import { IO } from './registers.ts';

/** Fuse and lock bytes. They are only told to the firmware; the chip always runs on its crystal. */
export interface Fuses {
  readonly low: number;
  readonly high: number;
  readonly extended: number;
  readonly lock: number;
}

/** An Uno as it is commonly sold; from memory. */
export const UNO_FUSES: Fuses = { low: 0xff, high: 0xde, extended: 0xfd, lock: 0xff };

/** BLBSET and SELFPRGEN of SPMCSR. */
const READ_FUSES = 0x09;
/** Cycles of the STS that writes SPMCSR, and the three within which LPM must follow. */
const WINDOW_CYCLES = 2 + 3;

/**
 * Reading fuses by program (data sheet, "Reading the Fuse and Lock Bits from Software"). LPM takes the bytes of
 * the flash, so for the few cycles that count the first four of them are the fuses; nothing is fetched
 * from there meanwhile.
 */
export const createFuseReading = ({ cpu, events, put, onWrite }: Machine, fuses: Fuses): void => {
  const flash = cpu.progBytes;
  // By Z: 0 low, 1 lock, 2 extended, 3 high.
  const shown = [fuses.low, fuses.lock, fuses.extended, fuses.high];
  let covered: Uint8Array | null = null;
  const uncover = events.alarm(() => {
    if (covered !== null) flash.set(covered);
    covered = null;
  });
  onWrite(IO.SPMCSR, (value) => {
    // Reads back as done: the bits clear themselves.
    put(IO.SPMCSR, 0);
    if (value !== READ_FUSES) return;
    covered ??= flash.slice(0, shown.length);
    flash.set(shown);
    uncover.set(cpu.cycles + WINDOW_CYCLES);
  });
};
