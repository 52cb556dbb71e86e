import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createMachine } from '../../../../sim/board/avr/machine.ts';
import { IO } from '../../../../sim/board/avr/registers.ts';
import { createTimers } from '../../../../sim/board/avr/timers.ts';

const CTC = 2;
const MAX = 0xff;
const OVERFLOW = 1;
const COMPARE_A = 2;
const COMPARE_B = 4;

type Act =
  | { readonly kind: 'pass'; readonly cycles: number }
  | { readonly kind: 'count' | 'compareA' | 'compareB' | 'clear'; readonly value: number };

/** Timer 0 counted one by one, as the data sheet's timing diagrams draw it: a match sets its flag a count later. */
const oneByOne = (mode: number, acts: readonly Act[]): readonly [count: number, flags: number][] => {
  let count = 0;
  let flags = 0;
  let blocked = false;
  const compare = { compareA: 0, compareB: 0 };
  return acts.map((act) => {
    switch (act.kind) {
      case 'pass':
        for (let passed = 0; passed < act.cycles; passed += 1) {
          if (!blocked && count === compare.compareA) flags |= COMPARE_A;
          if (!blocked && count === compare.compareB) flags |= COMPARE_B;
          blocked = false;
          if (mode === CTC && count === compare.compareA) {
            if (count === MAX) flags |= OVERFLOW;
            count = 0;
          } else if (count === MAX) {
            flags |= OVERFLOW;
            count = 0;
          } else count += 1;
        }
        break;
      case 'count':
        count = act.value;
        blocked = true;
        break;
      case 'clear':
        flags &= ~act.value;
        break;
      case 'compareA':
      case 'compareB':
        compare[act.kind] = act.value;
    }
    return [count, flags];
  });
};

const REGISTER = { count: IO.TCNT0, compareA: IO.OCR0A, compareB: IO.OCR0B, clear: IO.TIFR0 };
const inOneGo = (mode: number, acts: readonly Act[]): readonly [count: number, flags: number][] => {
  const { cpu } = createMachineWithTimers();
  cpu.writeData(IO.TCCR0A, mode);
  cpu.writeData(IO.TCCR0B, 1);
  return acts.map((act) => {
    if (act.kind === 'pass') cpu.cycles += act.cycles;
    else cpu.writeData(REGISTER[act.kind], act.value);
    return [cpu.readData(IO.TCNT0), cpu.readData(IO.TIFR0)];
  });
};
const createMachineWithTimers = (): ReturnType<typeof createMachine> => {
  const machine = createMachine(new Uint16Array(16_384), 0);
  createTimers(machine);
  return machine;
};

/** Few, so that counts and compare values often meet. */
const byte = fc.constantFrom(0, 1, 9, 10, 11, 200, 254, MAX);
const act: fc.Arbitrary<Act> = fc.oneof(
  fc.record({
    kind: fc.constant('pass' as const),
    cycles: fc.oneof(fc.integer({ min: 0, max: 2 }), fc.integer({ min: 0, max: 900 })),
  }),
  fc.record({ kind: fc.constantFrom('count', 'compareA', 'compareB'), value: byte }),
  fc.record({ kind: fc.constant('clear' as const), value: fc.integer({ min: 0, max: 7 }) }),
);

describe('a timer', () => {
  it('that is looked at now and then has the count and flags of one counted one by one, in both modes', () => {
    fc.assert(
      fc.property(fc.constantFrom(0, CTC), fc.array(act, { maxLength: 20 }), (mode, acts) => {
        expect(inOneGo(mode, acts)).toEqual(oneByOne(mode, acts));
      }),
      { numRuns: 2000 },
    );
  });

  it('past its top goes on to the end and begins again: top 10 put at 200, 10 again after 66 counts', () => {
    const acts: readonly Act[] = [
      { kind: 'count', value: 200 },
      { kind: 'compareA', value: 10 },
      // Out of the way.
      { kind: 'compareB', value: 100 },
      { kind: 'pass', cycles: 55 },
      { kind: 'pass', cycles: 1 },
      { kind: 'pass', cycles: 10 },
      { kind: 'pass', cycles: 1 },
    ];
    expect(inOneGo(CTC, acts).slice(3)).toEqual([
      [255, 0],
      [0, OVERFLOW],
      [10, OVERFLOW],
      [0, OVERFLOW | COMPARE_A],
    ]);
  });

  it('of sixteen bits takes and gives both bytes at once', () => {
    const { cpu } = createMachineWithTimers();
    cpu.writeData(IO.TCNT1L + 1, 0x12);
    cpu.writeData(IO.TCNT1L, 0xff);
    cpu.writeData(IO.TCCR1B, 1);
    cpu.cycles += 1;
    // Low byte first: the high one is kept from that moment.
    const low = cpu.readData(IO.TCNT1L);
    cpu.cycles += 1000;
    expect([low, cpu.readData(IO.TCNT1L + 1)]).toEqual([0x00, 0x13]);
  });

  it.each([
    ['fast PWM', IO.TCCR0A, 3, 'mode 3 of a timer'],
    ['an output on a pin', IO.TCCR0A, 0x40, 'drives a pin'],
    ['a clock from outside', IO.TCCR0B, 7, 'clocked from outside'],
    ['input capture', IO.TIMSK1, 0x20, 'input capture'],
  ])('stops loudly at %s', (_, register, value, why) => {
    const { cpu } = createMachineWithTimers();
    expect(() => {
      cpu.writeData(register, value);
      cpu.writeData(IO.TCCR0B, 1);
    }).toThrow(`not emulated: ${why.startsWith('mode') || why.startsWith('input') ? why : 'a timer'}`);
  });
});
