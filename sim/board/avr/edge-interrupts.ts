import type { Machine } from './machine.ts';
import { IO, VECTOR } from './registers.ts';

export interface EdgeInterrupts {
  /** Levels of a port's pins, one bit each; ports B, C and D are 0, 1 and 2. */
  readonly changed: (port: number, before: number, now: number) => void;
}

const PCMSK = [IO.PCMSK0, IO.PCMSK1, IO.PCMSK2];
const PCINT = [VECTOR.PCINT0, VECTOR.PCINT1, VECTOR.PCINT2];
const PORT_D = 2;
/** INT0 and INT1 are PD2 and PD3. */
const INT = [
  { bit: 2, vector: VECTOR.INT0 },
  { bit: 3, vector: VECTOR.INT1 },
];
/** Two bits of EICRA for each of them. */
const SENSE = { low: 0, change: 1, falling: 2, rising: 3 } as const;

/** Interrupts by pins (data sheet, "External Interrupts"): pin change of three ports, and INT0, INT1. */
export const createEdgeInterrupts = ({ get, put, onWrite, interrupts }: Machine): EdgeInterrupts => {
  let levels = 0;
  const sense = (int: number): number => (get(IO.EICRA) >> (2 * int)) & 3;
  const raise = (): void => {
    PCINT.forEach((vector, port) => {
      interrupts.put(vector, (get(IO.PCIFR) & get(IO.PCICR) & (1 << port)) !== 0);
    });
    INT.forEach(({ bit, vector }, int) => {
      const up = sense(int) === SENSE.low ? (levels & (1 << bit)) === 0 : (get(IO.EIFR) & (1 << int)) !== 0;
      interrupts.put(vector, up && (get(IO.EIMSK) & (1 << int)) !== 0);
    });
  };
  const clears = (flags: number, bits: number): void => {
    put(flags, get(flags) & ~bits);
    raise();
  };
  PCINT.forEach((vector, port) => {
    interrupts.onTaken(vector, () => {
      clears(IO.PCIFR, 1 << port);
    });
  });
  INT.forEach(({ vector }, int) => {
    interrupts.onTaken(vector, () => {
      clears(IO.EIFR, 1 << int);
    });
  });
  for (const flags of [IO.PCIFR, IO.EIFR])
    onWrite(flags, (value, mask) => {
      clears(flags, value & mask);
    });
  for (const register of [IO.PCICR, IO.EIMSK, IO.EICRA])
    onWrite(register, (value) => {
      put(register, value);
      raise();
    });

  return {
    changed: (port, before, now) => {
      const changed = before ^ now;
      if ((changed & get(PCMSK[port] ?? IO.PCMSK0)) !== 0) put(IO.PCIFR, get(IO.PCIFR) | (1 << port));
      if (port === PORT_D) {
        levels = now;
        INT.forEach(({ bit }, int) => {
          if ((changed & (1 << bit)) === 0) return;
          const wanted = (now & (1 << bit)) === 0 ? SENSE.falling : SENSE.rising;
          if (sense(int) === SENSE.change || sense(int) === wanted) put(IO.EIFR, get(IO.EIFR) | (1 << int));
        });
      }
      raise();
    },
  };
};
