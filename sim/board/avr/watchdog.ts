import type { Machine } from './machine.ts';
import { CLOCK_HZ, IO, MCUSR_BIT, VECTOR } from './registers.ts';

/** Bits of WDTCSR. */
const FLAG = 0x80;
const INTERRUPTS = 0x40;
const CHANGE = 0x10;
const RESETS = 0x08;
const PRESCALER = 0x27;
/** Its own oscillator (data sheet, "Watchdog Timer"): 2048 of its cycles at the shortest, doubled nine times. */
const WATCHDOG_HZ = 128_000;
const SHORTEST = 2048;
const DOUBLINGS_MAX = 9;
/** WDE and the prescaler may be changed within these after WDCE was written. */
const CHANGE_CYCLES = 4;

export interface Watchdog {
  /** The WDR instruction. */
  readonly kick: () => void;
  readonly turnOff: () => void;
}

/**
 * The watchdog: interrupt, reset, or the one and then the other. While WDRF of MCUSR is set it cannot be turned
 * off, and a reset with WDRF leaves it on at its shortest time.
 * @param secondOfOscillator cycles of the chip that 128 000 periods of the watchdog's oscillator take
 */
export const createWatchdog = (machine: Machine, secondOfOscillator: number, bites: () => void): Watchdog => {
  const { cpu, events, interrupts, get, put, onRead, onWrite } = machine;
  let since = cpu.cycles;
  let changeUntil = -1;
  const control = (): number => get(IO.WDTCSR);
  const forced = (): number => ((get(IO.MCUSR) & MCUSR_BIT.watchdog) === 0 ? 0 : RESETS);
  const isOn = (): boolean => (control() & (RESETS | INTERRUPTS)) !== 0;
  const spanCycles = (): number => {
    const bits = control() & PRESCALER;
    const doublings = Math.min(DOUBLINGS_MAX, ((bits & 0x20) >> 2) | (bits & 7));
    return Math.floor((secondOfOscillator * SHORTEST * 2 ** doublings) / WATCHDOG_HZ);
  };
  const raise = (): void => {
    interrupts.put(VECTOR.WDT, (control() & FLAG) !== 0 && (control() & INTERRUPTS) !== 0);
  };
  const schedule = (): void => {
    if (isOn()) alarm.set(Math.max(cpu.cycles + 1, since + spanCycles()));
    else alarm.clear();
  };
  const alarm = events.alarm((dueAt) => {
    const unheard = (control() & RESETS) !== 0 && (control() & FLAG) !== 0;
    if ((control() & INTERRUPTS) === 0 || unheard) {
      bites();
      return;
    }
    put(IO.WDTCSR, control() | FLAG);
    since = dueAt;
    raise();
    schedule();
  });

  put(IO.WDTCSR, forced());
  schedule();
  onRead(IO.WDTCSR, () => control() | (cpu.cycles <= changeUntil ? CHANGE : 0));
  onWrite(IO.WDTCSR, (value, mask) => {
    const wasOn = isOn();
    const mayChange = cpu.cycles <= changeUntil;
    if ((value & CHANGE) !== 0 && (value & RESETS) !== 0) changeUntil = cpu.cycles + CHANGE_CYCLES;
    else changeUntil = -1;
    const free = mayChange
      ? value & (RESETS | PRESCALER)
      : (control() & (RESETS | PRESCALER)) | (value & RESETS);
    const flag = control() & FLAG & ~(value & mask);
    put(IO.WDTCSR, free | forced() | (value & INTERRUPTS) | flag);
    if (!wasOn) since = cpu.cycles;
    raise();
    schedule();
  });
  interrupts.onTaken(VECTOR.WDT, () => {
    // In the mode of both, the interrupt leaves the reset to the next time-out.
    const both = (control() & RESETS) !== 0;
    put(IO.WDTCSR, control() & ~FLAG & (both ? ~INTERRUPTS : 0xff));
    raise();
  });
  onWrite(IO.MCUSR, (value) => {
    // Causes are cleared by a 0; nothing sets one but a reset.
    put(IO.MCUSR, get(IO.MCUSR) & value);
  });

  return {
    kick: () => {
      since = cpu.cycles;
      schedule();
    },
    turnOff: () => {
      put(IO.WDTCSR, 0);
      alarm.clear();
    },
  };
};

/** Of a watchdog oscillator `share` fast, in a chip whose crystal is `clockShare` fast. */
export const watchdogSecond = (share: number, clockShare: number): number =>
  (CLOCK_HZ * (1 + clockShare)) / (1 + share);
