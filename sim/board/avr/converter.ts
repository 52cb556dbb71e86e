import { assert } from '../../../src/units/assertion.ts';
import { bounded } from '../../../src/units/bounded.ts';
import type { Machine } from './machine.ts';
import { IO, VECTOR } from './registers.ts';

/** Bits of ADCSRA. */
const ENABLED = 0x80;
const START = 0x40;
const AUTO = 0x20;
const FLAG = 0x10;
const ON_READY = 0x08;
const KEPT = ENABLED | ON_READY | 0x07;
/** Bits of ADMUX. */
const REFERENCE = 0xc0;
const AVCC = 0x40;
const LEFT = 0x20;
/** ADC clocks to the sample, and to the end (data sheet, "ADC Conversion Time"); the first one takes longer. */
const SAMPLE_CLOCKS = { first: 13.5, next: 1.5 } as const;
const CLOCKS = { first: 25, next: 13 } as const;
/** Inputs of the chip in its 32-pin case. */
const CHANNELS = 8;
const BANDGAP = 14;
const GROUND = 15;
/** 1.1 V against a supply of 5 V. */
const BANDGAP_COUNTS = 225;
const COUNTS_MAX = 1023;

/** The converter, single conversions against the supply (data sheet, "Analog-to-Digital Converter"). */
export const createConverter = (machine: Machine, readAnalog: (channel: number) => number): void => {
  const { cpu, events, interrupts, get, put, onWrite } = machine;
  let phase: 'idle' | 'sampling' | 'converting' = 'idle';
  let first = true;
  let channel = 0;
  let counts = 0;
  let endsAt = 0;

  const raise = (): void => {
    interrupts.put(VECTOR.ADC, (get(IO.ADCSRA) & FLAG) !== 0 && (get(IO.ADCSRA) & ON_READY) !== 0);
  };
  const clear = (): void => {
    put(IO.ADCSRA, get(IO.ADCSRA) & ~FLAG);
    raise();
  };
  const sampled = (): number => {
    if (channel < CHANNELS) {
      const seen = readAnalog(channel);
      assert(Number.isFinite(seen), `analog channel ${channel} of the world reads ${seen}`);
      return Math.round(bounded(seen, 0, COUNTS_MAX));
    }
    assert(channel === BANDGAP || channel === GROUND, `not emulated: input ${channel} of the converter`);
    return channel === BANDGAP ? BANDGAP_COUNTS : 0;
  };
  const alarm = events.alarm((dueAt) => {
    if (phase === 'sampling') {
      counts = sampled();
      phase = 'converting';
      alarm.set(Math.max(endsAt, dueAt + 1));
      return;
    }
    phase = 'idle';
    first = false;
    const told = (get(IO.ADMUX) & LEFT) === 0 ? counts : counts << 6;
    put(IO.ADCL, told & 0xff);
    put(IO.ADCH, told >> 8);
    put(IO.ADCSRA, (get(IO.ADCSRA) & ~START) | FLAG);
    raise();
  });
  const start = (): void => {
    assert((get(IO.ADMUX) & REFERENCE) === AVCC, 'not emulated: another reference than the supply');
    channel = get(IO.ADMUX) & 0x0f;
    const clock = Math.max(2, 1 << (get(IO.ADCSRA) & 7));
    const key = first ? 'first' : 'next';
    endsAt = cpu.cycles + CLOCKS[key] * clock;
    phase = 'sampling';
    alarm.set(cpu.cycles + SAMPLE_CLOCKS[key] * clock);
  };

  onWrite(IO.ADCSRA, (value, mask) => {
    assert((value & AUTO) === 0, 'not emulated: conversions that start by themselves');
    const flag = get(IO.ADCSRA) & FLAG & ~(value & mask);
    const running = phase === 'idle' ? 0 : START;
    put(IO.ADCSRA, (value & KEPT) | flag | running);
    raise();
    if ((value & ENABLED) === 0) {
      phase = 'idle';
      first = true;
      alarm.clear();
      put(IO.ADCSRA, get(IO.ADCSRA) & ~START);
    } else if ((value & START) !== 0 && phase === 'idle') {
      put(IO.ADCSRA, get(IO.ADCSRA) | START);
      start();
    }
  });
  interrupts.onTaken(VECTOR.ADC, clear);
};
