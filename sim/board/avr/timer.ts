import { assert } from '../../../src/units/assertion.ts';
import type { Machine } from './machine.ts';

/** Cycle at which a prescaler was 0 last; the two timers that share it share this. */
export interface Prescaler {
  zeroAt: number;
}

export interface TimerPlace {
  readonly bits: 8 | 16;
  readonly controlA: number;
  readonly controlB: number;
  readonly count: number;
  readonly compareA: number;
  readonly compareB: number;
  /** Second choice for the top of a 16-bit timer. */
  readonly top: number | null;
  readonly flags: number;
  readonly enables: number;
  readonly vectors: { readonly compareA: number; readonly compareB: number; readonly overflow: number };
  /** Cycles of a count by the clock select bits; 0: stopped; null: not emulated. */
  readonly dividers: readonly (number | null)[];
  readonly prescaler: Prescaler;
}

export interface Timer {
  /** Counts up to the present cycle; before its prescaler is set back. */
  readonly sync: () => void;
  /** After its prescaler was set back. */
  readonly prescalerMoved: () => void;
}

/** Bits of TIFRn and TIMSKn. */
const OVERFLOW = 1;
const COMPARE_A = 2;
const COMPARE_B = 4;
const KNOWN_FLAGS = OVERFLOW | COMPARE_A | COMPARE_B;
/** Bits of TCCRnA that hand a pin to the timer. */
const PIN_MODES = 0xf0;

/**
 * A timer in its normal mode and in CTC (data sheet, "8-bit Timer/Counter0", "16-bit Timer/Counter1"). It counts
 * only when somebody looks or an enabled interrupt falls due, in closed form, so no span is too long. A compare
 * match sets its flag one count after the equality; a write to the counter blocks the match of that count; the
 * prescaler runs freely. Loud stops for PWM, outputs on pins, and clocks from outside.
 */
export const createTimer = (machine: Machine, place: TimerPlace): Timer => {
  const { cpu, events, interrupts, get, put, onRead, onWrite } = machine;
  const { prescaler, vectors, flags, enables } = place;
  const max = place.bits === 16 ? 0xffff : 0xff;
  let count = 0;
  let compareA = 0;
  let compareB = 0;
  let icr = 0;
  let top = max;
  let divider = 0;
  /** Number of the last count, from the zero of the prescaler. */
  let tick = 0;
  let blocked = false;
  /** High byte on its way into, or out of, a 16-bit register. */
  let highByte = 0;

  const tickNow = (): number => Math.floor((cpu.cycles - prescaler.zeroAt) / divider);
  const raise = (): void => {
    const up = get(flags) & get(enables);
    interrupts.put(vectors.overflow, (up & OVERFLOW) !== 0);
    interrupts.put(vectors.compareA, (up & COMPARE_A) !== 0);
    interrupts.put(vectors.compareB, (up & COMPARE_B) !== 0);
  };
  const ticksToWrap = (): number => (count > top || top === max ? max - count + 1 : Infinity);
  const ticksToMatch = (compare: number): number => {
    const turn = compare <= top ? top + 1 : Infinity;
    if (count === compare) return blocked ? turn + 1 : 1;
    if (count > top) {
      if (compare > count) return compare - count + 1;
      return compare <= top ? max - count + 1 + compare + 1 : Infinity;
    }
    if (compare > top) return Infinity;
    return ((compare - count + turn) % turn) + 1;
  };
  const sync = (): void => {
    if (divider === 0) return;
    const now = tickNow();
    const passed = now - tick;
    if (passed <= 0) return;
    let up = 0;
    if (ticksToWrap() <= passed) up |= OVERFLOW;
    if (ticksToMatch(compareA) <= passed) up |= COMPARE_A;
    if (ticksToMatch(compareB) <= passed) up |= COMPARE_B;
    const toWrap = max - count + 1;
    if (count > top) count = passed < toWrap ? count + passed : (passed - toWrap) % (top + 1);
    else count = (count + passed) % (top + 1);
    tick = now;
    blocked = false;
    if (up === 0) return;
    put(flags, get(flags) | up);
    raise();
  };
  const schedule = (): void => {
    const enabled = get(enables);
    let ticks = Infinity;
    if ((enabled & OVERFLOW) !== 0) ticks = ticksToWrap();
    if ((enabled & COMPARE_A) !== 0) ticks = Math.min(ticks, ticksToMatch(compareA));
    if ((enabled & COMPARE_B) !== 0) ticks = Math.min(ticks, ticksToMatch(compareB));
    if (divider === 0 || ticks === Infinity) alarm.clear();
    else alarm.set(prescaler.zeroAt + (tick + ticks) * divider);
  };
  const alarm = events.alarm(() => {
    sync();
    schedule();
  });

  const configure = (): void => {
    const controlA = get(place.controlA);
    const controlB = get(place.controlB);
    const wide = place.bits === 16;
    const mode = (controlA & 3) | ((controlB & (wide ? 0x18 : 0x08)) >> 1);
    const clock = place.dividers[controlB & 7];
    assert(clock !== null && clock !== undefined, 'not emulated: a timer clocked from outside');
    if (clock !== 0) {
      assert((controlA & PIN_MODES) === 0, 'not emulated: a timer that drives a pin');
      const known = wide ? [0, 4, 12] : [0, 2];
      assert(known.includes(mode), `not emulated: mode ${mode} of a timer`);
    }
    if (clock !== divider) {
      divider = clock;
      tick = clock === 0 ? 0 : tickNow();
    }
    top = mode === 0 ? max : mode === 12 ? icr : compareA;
  };
  const change = (apply: () => void): void => {
    sync();
    apply();
    configure();
    schedule();
  };

  for (const register of [place.controlA, place.controlB])
    onWrite(register, (value) => {
      change(() => {
        put(register, value);
      });
    });
  onWrite(enables, (value) => {
    change(() => {
      put(enables, value & KNOWN_FLAGS);
      assert(value === (value & KNOWN_FLAGS), 'not emulated: input capture');
      raise();
    });
  });
  onRead(flags, () => {
    sync();
    return get(flags);
  });
  const clear = (bits: number): void => {
    sync();
    put(flags, get(flags) & ~bits);
    raise();
  };
  onWrite(flags, (value, mask) => {
    clear(value & mask);
  });
  interrupts.onTaken(vectors.overflow, () => {
    clear(OVERFLOW);
  });
  interrupts.onTaken(vectors.compareA, () => {
    clear(COMPARE_A);
  });
  interrupts.onTaken(vectors.compareB, () => {
    clear(COMPARE_B);
  });

  const wholeOf = (low: number): number => (place.bits === 16 ? (highByte << 8) | low : low);
  const register = (address: number, apply: (value: number) => void): void => {
    onWrite(address, (low) => {
      const value = wholeOf(low);
      change(() => {
        put(address, low);
        if (place.bits === 16) put(address + 1, value >> 8);
        apply(value);
      });
    });
    if (place.bits === 16)
      onWrite(address + 1, (high) => {
        highByte = high;
      });
  };
  register(place.compareA, (value) => {
    compareA = value;
  });
  register(place.compareB, (value) => {
    compareB = value;
  });
  if (place.top !== null)
    register(place.top, (value) => {
      icr = value;
    });
  register(place.count, (value) => {
    count = value;
    blocked = true;
  });
  onRead(place.count, () => {
    sync();
    highByte = count >> 8;
    return count & 0xff;
  });
  if (place.bits === 16) onRead(place.count + 1, () => highByte);

  return {
    sync,
    prescalerMoved: () => {
      tick = 0;
      schedule();
    },
  };
};
