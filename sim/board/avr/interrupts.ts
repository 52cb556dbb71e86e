/** Interrupts that wait for the processor. */
export interface Interrupts {
  /** Bit by vector number: its flag is up and it is enabled. The I bit of SREG is not counted. */
  readonly pending: number;
  readonly put: (vector: number, pends: boolean) => void;
  /** Called when the processor takes the interrupt, for hardware that then clears the flag by itself. */
  readonly onTaken: (vector: number, taken: () => void) => void;
  /** The pending interrupt of the lowest number, which is the most urgent one. */
  readonly take: () => number;
}

export const createInterrupts = (): Interrupts => {
  const onTaken: ((() => void) | undefined)[] = [];
  const interrupts = {
    pending: 0,
    put: (vector: number, pends: boolean): void => {
      if (pends) interrupts.pending |= 1 << vector;
      else interrupts.pending &= ~(1 << vector);
    },
    onTaken: (vector: number, taken: () => void): void => {
      onTaken[vector] = taken;
    },
    take: (): number => {
      const vector = 31 - Math.clz32(interrupts.pending & -interrupts.pending);
      onTaken[vector]?.();
      return vector;
    },
  };
  return interrupts;
};
