import { assert } from '../../../src/units/assertion.ts';
import type { Machine } from './machine.ts';
import { IO, VECTOR } from './registers.ts';
import { createTimer } from './timer.ts';

/** Clock select bits of timers 0 and 1, and of timer 2 (data sheet, "Clock Select Bit Description"). */
const DIVIDERS = [0, 1, 8, 64, 256, 1024, null, null];
const DIVIDERS_OF_TIMER_2 = [0, 1, 8, 32, 64, 128, 256, 1024];
/** Bits of GTCCR. */
const HOLD = 0x80;
const RESET_ASYNC = 2;
const RESET_SYNC = 1;

/** Timers 0, 1 and 2 with their two prescalers. */
export const createTimers = (machine: Machine): void => {
  const { cpu, onWrite } = machine;
  const shared = { zeroAt: cpu.cycles };
  const own = { zeroAt: cpu.cycles };
  const timer0 = createTimer(machine, {
    bits: 8,
    controlA: IO.TCCR0A,
    controlB: IO.TCCR0B,
    count: IO.TCNT0,
    compareA: IO.OCR0A,
    compareB: IO.OCR0B,
    top: null,
    flags: IO.TIFR0,
    enables: IO.TIMSK0,
    vectors: {
      compareA: VECTOR.TIMER0_COMPA,
      compareB: VECTOR.TIMER0_COMPB,
      overflow: VECTOR.TIMER0_OVF,
    },
    dividers: DIVIDERS,
    prescaler: shared,
  });
  const timer1 = createTimer(machine, {
    bits: 16,
    controlA: IO.TCCR1A,
    controlB: IO.TCCR1B,
    count: IO.TCNT1L,
    compareA: IO.OCR1AL,
    compareB: IO.OCR1BL,
    top: IO.ICR1L,
    flags: IO.TIFR1,
    enables: IO.TIMSK1,
    vectors: {
      compareA: VECTOR.TIMER1_COMPA,
      compareB: VECTOR.TIMER1_COMPB,
      overflow: VECTOR.TIMER1_OVF,
    },
    dividers: DIVIDERS,
    prescaler: shared,
  });
  const timer2 = createTimer(machine, {
    bits: 8,
    controlA: IO.TCCR2A,
    controlB: IO.TCCR2B,
    count: IO.TCNT2,
    compareA: IO.OCR2A,
    compareB: IO.OCR2B,
    top: null,
    flags: IO.TIFR2,
    enables: IO.TIMSK2,
    vectors: {
      compareA: VECTOR.TIMER2_COMPA,
      compareB: VECTOR.TIMER2_COMPB,
      overflow: VECTOR.TIMER2_OVF,
    },
    dividers: DIVIDERS_OF_TIMER_2,
    prescaler: own,
  });
  onWrite(IO.GTCCR, (value) => {
    assert((value & HOLD) === 0, 'not emulated: timers held by their prescaler');
    for (const [bit, prescaler, timers] of [
      [RESET_SYNC, shared, [timer0, timer1]],
      [RESET_ASYNC, own, [timer2]],
    ] as const) {
      if ((value & bit) === 0) continue;
      for (const timer of timers) timer.sync();
      prescaler.zeroAt = cpu.cycles;
      for (const timer of timers) timer.prescalerMoved();
    }
  });
};
