import { carryOut } from './carry-out.ts';
import type { Core } from './core.ts';
import type { Life } from './life.ts';
import { IO } from './registers.ts';

const STACK = 93;
/** The I bit of SREG. */
const INTERRUPTS_ON = 0x80;
/** From the interrupt to its vector, and more out of sleep (data sheet, "Interrupt Response Time"). */
const RESPONSE_CYCLES = 4;
const WAKING_CYCLES = 4;
/** Words of a vector. */
const VECTOR_WORDS = 2;

/** Pushes the place to come back to, and goes to the vector. */
const enter = (core: Core): void => {
  const { cpu, interrupts } = core;
  const { data, dataView } = cpu;
  cpu.cycles += RESPONSE_CYCLES + (core.asleep ? WAKING_CYCLES : 0);
  core.asleep = false;
  const stack = dataView.getUint16(STACK, true);
  data[stack] = cpu.pc;
  data[stack - 1] = cpu.pc >> 8;
  dataView.setUint16(STACK, stack - 2, true);
  data[IO.SREG] = cpu.SREG & ~INTERRUPTS_ON;
  cpu.pc = VECTOR_WORDS * interrupts.take();
};

/** Lets the bootloader have its time: nothing but the watchdog runs meanwhile. */
const hold = (life: Life, target: number): void => {
  const { cpu, events } = life.machine;
  const until = Math.min(life.heldUntil, target);
  while (cpu.cycles < until && life.ends === null) {
    cpu.cycles = Math.max(cpu.cycles, Math.min(events.nextAt, until));
    events.runDue(cpu.cycles);
  }
};

/**
 * Runs the chip up to a cycle, or to the end of the life. A sleeping chip goes straight to the next alarm, never
 * past the target; without `fastForward` it goes there cycle by cycle, which must come to the same.
 */
export const run = (life: Life, target: number, fastForward: boolean): void => {
  const { core } = life;
  const { cpu, events, interrupts } = core;
  if (cpu.cycles < life.heldUntil) hold(life, target);
  while (cpu.cycles < target) {
    if (events.nextAt <= cpu.cycles) {
      if (life.ends === null) events.runDue(cpu.cycles);
      if (life.ends !== null) return;
    }
    const called = interrupts.pending !== 0 && cpu.SREG >= INTERRUPTS_ON;
    if (called && !core.justEnabled) {
      enter(core);
    } else if (core.asleep) {
      cpu.cycles = fastForward ? Math.min(events.nextAt, target) : cpu.cycles + 1;
    } else {
      core.justEnabled = false;
      carryOut(core, called ? cpu.cycles + 1 : Math.min(events.nextAt, target));
    }
  }
};
